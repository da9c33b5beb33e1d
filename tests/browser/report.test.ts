// The report in a real browser: what a reader with a phone, a screen reader, a dark room or a printer gets.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { carriedIn } from '../../src/report/carried/read.js';
import { renderReport } from '../../src/report/report.js';
import { scenarioText } from '../../src/report/reproduce.js';
import { inventedInput } from '../report/fixture.js';
import { WIDTHS_PX } from './widths.js';
import { CONTRAST, WCAG_AND_BEST_PRACTICE, violations } from './axe.js';
import { CHROMIUM, withoutChromium } from '../needs.js';

const missing = withoutChromium();

describe.skipIf(missing)('in Chromium', () => {
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-report-'));
  const file = join(folder, 'report.html');
  let browser: Browser;
  const trouble: string[] = [];

  beforeAll(async () => {
    writeFileSync(file, await renderReport(inventedInput()));
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu'] });
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  /** The page, with everything it complains about or asks for written down. */
  async function open(width: number, colorScheme: 'light' | 'dark' = 'light'): Promise<Page> {
    const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
    const page = await context.newPage();
    page.on('console', (m) => trouble.push(`console: ${m.text()}`));
    await page.addInitScript(
      "document.addEventListener('securitypolicyviolation', (e) => console.log('policy: ' + e.violatedDirective))",
    );
    page.on('pageerror', (e) => trouble.push(`error: ${e.message}`));
    const own = pathToFileURL(file).href;
    page.on('request', (r) => {
      if (r.url() !== own) trouble.push(`request: ${r.url()}`);
    });
    await page.goto(own);
    return page;
  }

  test.each(WIDTHS_PX)('at %i px nothing scrolls sideways, nothing is fetched, nothing complains', async (width) => {
    const page = await open(width);
    const { scroll, client } = (await page.evaluate(
      // Runs in the page.
      'const e = document.documentElement; ({ scroll: e.scrollWidth, client: e.clientWidth })',
    )) as { scroll: number; client: number };
    expect(client).toBe(width);
    expect(scroll).toBeLessThanOrEqual(width);
    await page.context().close();
    expect(trouble).toEqual([]);
  });

  test('the scenario it carries is data that nothing runs, and is there when a browser has saved the page', async () => {
    const page = await open(1440);
    const saved = await page.content();
    await page.context().close();
    expect(trouble).toEqual([]);
    expect(carriedIn(saved)).toEqual(carriedIn(readFileSync(file, 'utf8')));
    expect(carriedIn(saved)).toMatchObject({ format: 1, scenario: scenarioText(inventedInput().design) });
  });

  test('no violation of WCAG 2.2 AA or of best practice', async () => {
    const page = await open(360);
    expect(await violations(page, WCAG_AND_BEST_PRACTICE)).toEqual([]);
    await page.context().close();
  });

  test('contrast holds in the dark too', async () => {
    const page = await open(1440, 'dark');
    expect(await violations(page, CONTRAST)).toEqual([]);
    await page.context().close();
  });

  test('letters in the pictures stay readable on a phone', async () => {
    const page = await open(360);
    const heights = (await page.evaluate(
      '[...document.querySelectorAll(".chart svg, .drawing")].flatMap((s) => [...s.querySelectorAll("text")]).map((t) => t.getBoundingClientRect()).filter((r) => r.width > 0 && r.width >= r.height).map((r) => r.height)',
    )) as number[];
    expect(heights.length).toBeGreaterThan(50);
    // Box height of a 9 px letter, about.
    expect(Math.min(...heights)).toBeGreaterThan(9);
    await page.context().close();
  });

  test('the first screen holds the answer, three numbers, what not to conclude and the door', async () => {
    const page = await open(1440);
    const bottoms = (await page.evaluate(
      'Object.fromEntries([".verdict", ".three", ".unwise", ".seen svg"].map((what) => { const r = document.querySelector(what).getBoundingClientRect(); return [what, r.height > 40 ? r.bottom : Infinity]; }))',
    )) as Record<string, number>;
    for (const [what, bottom] of Object.entries(bottoms)) expect(bottom, what).toBeLessThanOrEqual(900);
    // Words left, drawing right.
    const [words, door] = (await page.evaluate(
      '[".verdict", ".seen svg"].map((what) => { const { left, right } = document.querySelector(what).getBoundingClientRect(); return { left, right }; })',
    )) as { left: number; right: number }[];
    expect(words!.right).toBeLessThan(door!.left);
    await page.context().close();
  });

  test('on a phone the answer comes first, the door beneath it', async () => {
    const page = await open(360);
    const tops = (await page.evaluate(
      '["#verdict", ".three", "#unwise", "#seen"].map((what) => document.querySelector(what).getBoundingClientRect().top)',
    )) as number[];
    expect(tops).toEqual([...tops].sort((a, b) => a - b));
    expect(tops[0]).toBeLessThan(450);
    await page.context().close();
  });

  test('outlines of people have colours and round ends, not the dark of an unstyled drawing', async () => {
    const page = await open(1440);
    const strokes = (await page.evaluate(
      '[...document.querySelectorAll(".seen use")].map((u) => getComputedStyle(u).stroke)',
    )) as string[];
    expect(strokes).toHaveLength(2);
    expect(new Set(strokes).size).toBe(2);
    for (const stroke of strokes) expect(stroke).toMatch(/^rgb/);
    await page.context().close();
  });

  test('it prints, closed parts included', async () => {
    const page = await open(1440);
    await page.emulateMedia({ media: 'print' });
    const yaml = (await page.evaluate(
      `document.querySelector('details pre[aria-label="Scenario"]').getBoundingClientRect().height`,
    )) as number;
    expect(yaml).toBeGreaterThan(100);
    await page.context().close();
  });

  test.each(['A4', 'Letter'])(
    'on %s it is short enough to print, and long tables say that they are left out',
    async (format) => {
      const page = await open(1440);
      const pdf = (await page.pdf({ format })).toString('latin1');
      const pages = [...pdf.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length;
      expect(pages).toBeGreaterThan(4);
      expect(pages).toBeLessThanOrEqual(12);
      await page.emulateMedia({ media: 'print' });
      const [told, shut] = (await page.evaluate(
        '[getComputedStyle(document.querySelector("details.long > summary"), "::after").content, [...document.querySelectorAll("details.long")].every((d) => d.getBoundingClientRect().height < 40)]',
      )) as [string, boolean];
      expect(told).toContain('left to the screen');
      expect(shut).toBe(true);
      await page.context().close();
    },
  );
});
