// Reports come alive: what a reader with a pointer, a keyboard, a screen reader or a file manager gets of the charts.
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { pageScripts } from '../../src/cli/page-scripts.js';
import { renderReport } from '../../src/report/report.js';
import type { ReportInput } from '../../src/report/report-input.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { simulate } from '../../src/simulate/simulate.js';
import { withoutChromium } from '../needs.js';
import { WCAG_AND_BEST_PRACTICE, violations } from './axe.js';
import { Reader } from './live-page.js';

const missing = withoutChromium();
const { scripts } = pageScripts();

/** Two doors and two rooms, simulated for a morning. */
function input(): ReportInput {
  const text = readFileSync('scenarios/two-doors.yaml', 'utf8');
  const { design } = parseScenario(text, 'two-doors.yaml', { sets: ['replicates=4', 'hours=4'] });
  const { metrics, figures } = simulate(design!);
  return { design: design!, metrics, figures, sources: [], version: '0.0.0', design_sha256: '0'.repeat(64), scripts };
}

describe.skipIf(missing)('a report in Chromium, with scripts', () => {
  const reader = new Reader();
  let run: ReportInput;
  let html: string;
  let page: Page;

  beforeAll(async () => {
    run = input();
    html = await renderReport(run);
    await reader.start();
  });
  afterAll(() => reader.end());
  afterEach(async () => {
    await page.context().close();
    expect(reader.trouble.splice(0)).toEqual([]);
  });

  /** The chart once it is drawn. */
  async function chart(id: string) {
    const figure = page.locator(`figure#${id}`);
    await figure.scrollIntoViewIfNeeded();
    await figure.locator('.tools').waitFor();
    return figure;
  }
  /** What the chart's axis along the bottom says. */
  const ticks = async (id: string): Promise<string[]> =>
    (await (await chart(id)).locator('.drawn .role-axis-label').first().locator('text').allTextContents()).filter(
      (text) => text !== '',
    );
  const seen = async (id: string): Promise<boolean> => page.locator(`figure#${id}`).isVisible();

  test('who points at a chart reads the values that hold there', async () => {
    page = await reader.open(html);
    const figure = await chart('room-0');
    const plot = figure.locator('.plot');
    await plot.hover({ position: { x: 250, y: 100 } });
    const said = await plot.locator('.readout').allInnerTexts();
    const at = Number(/hours since the start: ([\d.]+)/.exec(said[0]!)![1]);
    expect(at).toBeGreaterThan(0);
    // From the data the page was made of: the last step before that hour, to the digits shown.
    const trace = run.figures.rooms[0]!;
    const i = trace.time_h.findLastIndex((h) => h <= at + 0.005);
    expect(said[0]).toContain(`truth, persons: ${trace.truth[i]}`);
    expect(said[0]).toContain(`counted, persons: ${trace.counted[i]}`);
    await page.mouse.move(5, 5);
    expect(await plot.locator('.readout').isVisible()).toBe(false);
  });

  test('arrow keys read a chart row by row, and say it to a screen reader', async () => {
    page = await reader.open(html);
    const figure = await chart('drift-0');
    const plot = figure.getByRole('slider');
    await plot.focus();
    await page.keyboard.press('End');
    const bands = run.figures.drift[0]!;
    const last = bands.clock_h.length - 1;
    const words = (await plot.getAttribute('aria-valuetext'))!;
    expect(words).toContain(`hours since the start: ${bands.clock_h[last]}`);
    expect(words).toContain(`median, persons: ${shownAs(bands.q50[last]!)}`);
    await page.keyboard.press('ArrowLeft');
    expect(await plot.getAttribute('aria-valuenow')).toBe(String(Number(await plot.getAttribute('aria-valuemax')) - 1));
    await page.keyboard.press('Home');
    expect(await plot.getAttribute('aria-valuetext')).toContain('hours since the start: 0;');
    await page.keyboard.press('Escape');
    expect(await plot.locator('.readout').isVisible()).toBe(false);
  });

  test('a series that is left out is in neither picture nor words, and comes back', async () => {
    page = await reader.open(html);
    const figure = await chart('room-0');
    const paths = figure.locator('.drawn .mark-line path');
    const counted = figure.getByRole('button', { name: 'counted' });
    await counted.click();
    expect(await counted.getAttribute('aria-pressed')).toBe('false');
    await expect.poll(() => paths.nth(1).getAttribute('opacity')).toBe('0');
    expect(await paths.nth(0).getAttribute('opacity')).not.toBe('0');
    const plot = figure.getByRole('slider');
    await plot.focus();
    await page.keyboard.press('End');
    expect(await plot.getAttribute('aria-valuetext')).not.toContain('counted');
    await counted.click();
    await expect.poll(() => paths.nth(1).getAttribute('opacity')).not.toBe('0');
  });

  test('dragging over one chart of time moves them all, and the bar does the same by keyboard', async () => {
    page = await reader.open(html);
    await chart('room-0');
    // Labels that would cover others are left out.
    expect(Number((await ticks('drift-0')).at(-1))).toBeGreaterThan(3);
    const figure = await chart('room-0');
    const box = (await figure.locator('.plot').boundingBox())!;
    // The plot is 56 px in from the left and 12 px from the right.
    const at = (share: number): number => box.x + 56 + share * (box.width - 68);
    await page.mouse.move(at(0.25), box.y + 60);
    await page.mouse.down();
    await page.mouse.move(at(0.5), box.y + 70, { steps: 4 });
    await page.mouse.up();
    const [from, to] = [page.getByLabel('From hour'), page.getByLabel('To hour')];
    expect(Number(await from.inputValue())).toBeCloseTo(1, 1);
    expect(Number(await to.inputValue())).toBeCloseTo(2, 1);
    for (const id of ['room-0', 'drift-0', 'drift-1', 'room-drift-0', 'right-0']) {
      const hours = (await ticks(id)).map(Number);
      expect(Math.min(...hours), id).toBeGreaterThanOrEqual(1);
      expect(Math.max(...hours), id).toBeLessThanOrEqual(2.01);
    }
    await to.fill('3');
    await to.press('Enter');
    await expect.poll(async () => Math.max(...(await ticks('drift-0')).map(Number))).toBeGreaterThan(2.5);
    await page.getByRole('button', { name: 'Show the whole time again' }).click();
    await expect.poll(async () => Math.max(...(await ticks('drift-0')).map(Number))).toBeGreaterThan(3);
  });

  test('who picks a room sees no other; who picks all sees all', async () => {
    page = await reader.open(html);
    const rooms = run.figures.rooms.filter(({ logic }) => logic === 'first-broken').map(({ room }) => room);
    expect(rooms).toEqual(['studio', 'studio', 'shed', 'shed']);
    await chart('room-0');
    await page.getByLabel('Room', { exact: true }).selectOption('shed');
    expect([await seen('room-0'), await seen('room-2')]).toEqual([false, true]);
    await page.getByLabel('Room', { exact: true }).selectOption('all 2');
    expect([await seen('room-0'), await seen('room-2')]).toEqual([true, true]);
    await page.getByLabel('Door', { exact: true }).selectOption('shed-door');
    expect([await seen('kinds-0'), await seen('kinds-1')]).toEqual([false, true]);
  });

  test('behind a chart is its table, and the CSV has the very numbers', async () => {
    page = await reader.open(html);
    const figure = await chart('stature-0');
    await figure.getByRole('button', { name: 'Table' }).click();
    const bands = run.metrics.doors[0]!.by_stature.filter((b) => b.wrong_per_100_visits.value !== null);
    expect(await figure.locator('table tbody tr').count()).toBe(bands.length);
    const rows = parse(await saved('stature-0', 'Save the numbers as CSV', 'stature-0.csv'), {
      from_line: 2,
    }) as string[][];
    expect(rows.map((row) => row.map((cell) => (cell === '' ? null : Number(cell))))).toEqual(
      bands.map(({ from_m, to_m, visits, wrong_per_100_visits: e }) => [from_m, to_m, e.value, e.low, e.high, visits]),
    );
    await figure.getByRole('button', { name: 'Table' }).click();
    expect(await figure.locator('table').count()).toBe(0);
  });

  test('pictures can be taken along: SVG that stands alone, PNG of the same shape', async () => {
    page = await reader.open(html);
    const svg = (await saved('drift-0', 'Save the picture as SVG', 'drift-0.svg')).toString();
    expect(svg).toMatch(/^<svg[^>]* xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
    expect(svg).not.toContain('var(');
    expect(
      await page.evaluate(
        `new DOMParser().parseFromString(${JSON.stringify(svg)}, 'image/svg+xml').querySelector('parsererror') === null`,
      ),
    ).toBe(true);
    const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(svg)!;
    const png = await saved('drift-0', 'Save the picture as PNG', 'drift-0.png');
    // Signature and header: Portable Network Graphics (PNG) Specification, W3C, sections 5.2 and 11.2.1 (from memory).
    expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([Number(width) * 3, Number(height) * 3]);
  });

  async function saved(id: string, button: string, name: string): Promise<Buffer> {
    const figure = await chart(id);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      figure.getByRole('button', { name: button }).click(),
    ]);
    expect(download.suggestedFilename()).toBe(name);
    return readFileSync((await download.path())!);
  }

  test('every chart comes alive; alive it breaks no rule of WCAG 2.2 AA, with tables open', async () => {
    page = await reader.open(html, { viewport: { width: 360, height: 800 } });
    const ids = (await page.evaluate(
      '[...document.querySelectorAll("figure.chart[id]:has(.still)")].map((f) => f.id)',
    )) as string[];
    expect(ids.length).toBeGreaterThan(12);
    for (const id of ids) await chart(id);
    await (await chart(ids[0]!)).getByRole('button', { name: 'Table' }).click();
    expect(await violations(page, WCAG_AND_BEST_PRACTICE)).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360);
  });

  test('every control can be reached and worked by keyboard alone', async () => {
    page = await reader.open(html);
    await chart('drift-0');
    const controls =
      '[...document.querySelectorAll("a[href], button, select, input, summary, [tabindex=\'0\']")].filter((e) => e.checkVisibility() && !e.disabled)';
    const count = (await page.evaluate(`${controls}.length`)) as number;
    expect(count).toBeGreaterThan(20);
    await page.evaluate(
      'window.reached = new Set(); document.addEventListener("focusin", (e) => window.reached.add(e.target))',
    );
    await page.evaluate('document.body.focus(); window.scrollTo(0, 0)');
    // Charts that come alive on the way add theirs.
    for (let i = 0; i < 4 * count + 300; i++) {
      await page.keyboard.press('Tab');
      if (i % 50 === 49 && (await page.evaluate(`${controls}.every((e) => window.reached.has(e))`))) break;
    }
    expect(
      await page.evaluate(`${controls}.filter((e) => !window.reached.has(e)).map((e) => e.outerHTML.slice(0, 100))`),
    ).toEqual([]);
  });

  test('on paper it is as it was made: no button, every picture whole', async () => {
    page = await reader.open(html);
    await chart('room-0');
    await page.getByLabel('Room', { exact: true }).selectOption('shed');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('button:visible, select:visible, input:visible').count()).toBe(0);
    for (const id of ['room-0', 'room-2', 'drift-0']) {
      const box = (await page.locator(`#${id} .still`).boundingBox())!;
      expect(Math.min(box.width, box.height)).toBeGreaterThan(150);
    }
  });

  test('without scripts the same pictures are there, and nothing to press', async () => {
    page = await reader.open(html, { javaScriptEnabled: false });
    expect(await page.locator('.still:visible').count()).toBeGreaterThan(12);
    expect(await page.locator('button, input, select').count()).toBe(0);
    expect(await page.locator('#ask').isVisible()).toBe(false);
  });

  test('at 200 % zoom nothing scrolls sideways', async () => {
    page = await reader.open(html, { viewport: { width: 640, height: 450 }, deviceScaleFactor: 2 });
    await chart('room-0');
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(640);
  });
});

describe.skipIf(missing)('the policy of a report in Chromium', () => {
  const reader = new Reader();
  beforeAll(() => reader.start());
  afterAll(() => reader.end());

  test('a script that is not ours does not run, and the browser says so', async () => {
    const html = (await renderReport(input())).replace(
      '<main>',
      '<main><script>window.hit = 1</script><img src="x" onerror="window.hit = 2">',
    );
    const page = await reader.open(html);
    await page.locator('.picks').waitFor();
    expect(await page.evaluate('window.hit')).toBe(undefined);
    const said = reader.trouble.filter((one) =>
      one.includes('violates the following Content Security Policy directive'),
    );
    expect(said.map((one) => /(?<=directive: ?['"]|directive ['"])[\w-]+/.exec(one)![0])).toEqual([
      'script-src',
      'script-src',
      'img-src',
    ]);
  });

  test('it names two scripts by their hashes and a worker of the page’s own: no eval, nothing remote', async () => {
    const html = await renderReport(input());
    const [policy] = /(?<=http-equiv="Content-Security-Policy" content=")[^"]*/.exec(html)!;
    const rules = policy.replaceAll('&#39;', "'").split('; ');
    expect(rules.find((rule) => rule.startsWith('script-src '))).toMatch(
      /^script-src 'sha256-[\w+/]{43}=' 'sha256-[\w+/]{43}='$/,
    );
    expect(rules).toEqual(expect.arrayContaining(["default-src 'none'", 'worker-src blob:', "base-uri 'none'"]));
    expect(policy).not.toMatch(/unsafe-eval|https?:|\*/);
  });
});

const shownAs = (x: number): string => String(Math.round(x * 100) / 100).replace('-', '\u2212');
