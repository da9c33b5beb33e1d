// The page that compares runs in a real browser: on a phone, in the dark, read aloud, printed. The doors are invented.
import { type Browser, type Page, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderCompareReport } from '../../src/report/compare/report.js';
import { CHROMIUM, withoutChromium } from '../needs.js';
import { labelClashes } from './label-clashes.js';
import { HIGH, LOW, runOf } from '../report/compare/runs.js';
import { WIDTHS_PX } from './widths.js';
import { CONTRAST, WCAG_AND_BEST_PRACTICE, violations } from './axe.js';

const missing = withoutChromium();

const LONG = 'a-label-as-long-as-labels-may-become-without-any-blank-in-it';
const PAGES = {
  two: () => [runOf('plain'), runOf('high', [HIGH])],
  'three, not all paired': () => [runOf('plain'), runOf('low', [LOW]), runOf('reseeded', ['seed=6', 'replicates=4'])],
  'long names': () => [
    runOf(LONG),
    { ...runOf(`${LONG.slice(0, 50)} (b)`, [HIGH, 'logics=[first-broken]']) },
    runOf('عنوان طويل', ['seed=6']),
  ],
} as const;
type Which = keyof typeof PAGES;
const ALL = Object.keys(PAGES) as Which[];

describe.skipIf(missing)('the page that compares runs, in Chromium', () => {
  let browser: Browser;
  const pages = new Map<Which, string>();

  beforeAll(async () => {
    for (const which of ALL) pages.set(which, await renderCompareReport(PAGES[which](), { version: '0.0.0' }));
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu'] });
  });
  afterAll(async () => {
    await browser?.close();
  });

  async function open(which: Which, width: number, colorScheme: 'light' | 'dark' = 'light'): Promise<Page> {
    const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
    const page = await context.newPage();
    await page.setContent(pages.get(which) ?? '');
    return page;
  }

  test.each(ALL.flatMap((which) => WIDTHS_PX.map((width) => [which, width] as const)))(
    '%s at %i px: nothing scrolls sideways, no label of a picture is cut or covers another',
    async (which, width) => {
      const page = await open(which, width);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
      expect(await labelClashes(page)).toEqual([]);
      expect(await page.evaluate('document.querySelectorAll(".chart svg text").length')).toBeGreaterThan(50);
      await page.context().close();
    },
  );

  test.each(ALL)('%s: no violation of WCAG 2.2 AA or of best practice', async (which) => {
    const page = await open(which, 360);
    expect(await violations(page, WCAG_AND_BEST_PRACTICE)).toEqual([]);
    await page.context().close();
  });

  test('contrast holds in the dark too', async () => {
    const page = await open('three, not all paired', 1440, 'dark');
    expect(await violations(page, CONTRAST)).toEqual([]);
    await page.context().close();
  });

  test('verdict and what would be unwise are in the first two screens of a desktop', async () => {
    const page = await open('three, not all paired', 1440);
    const bottom = (await page.evaluate('document.querySelector(".unwise").getBoundingClientRect().bottom')) as number;
    expect(bottom).toBeLessThan(1800);
    await page.context().close();
  });

  test.each(ALL)('%s prints: every table fits an A4 page', async (which) => {
    // 180 mm at 96 px an inch.
    const width = 680;
    const page = await open(which, width);
    await page.emulateMedia({ media: 'print' });
    const wide = await page.evaluate(
      `[...document.querySelectorAll('table')].filter((t) => t.getBoundingClientRect().right > ${width} + 1).map((t) => t.textContent.slice(0, 60))`,
    );
    expect(wide).toEqual([]);
    expect((await page.pdf({ format: 'A4', pageRanges: '1-2' })).length).toBeGreaterThan(10_000);
    await page.context().close();
  });
});
