// The report of a study in a real browser: on a phone, in the dark, read aloud, printed. The studies are invented.
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderStudyReport } from '../../src/report/study/report.js';
import { HEIGHT, SENSOR, SPACING, inventedStudy } from '../report/study/invented-study.js';
import { WIDTHS_PX } from './widths.js';
import { CONTRAST, WCAG_AND_BEST_PRACTICE, violations } from './axe.js';
import { CHROMIUM, withoutChromium } from '../needs.js';
import { labelClashes } from './label-clashes.js';

const missing = withoutChromium();

/** Every design with an effort of its own, so that the front has many points. */
const many = (words: Readonly<Record<string, string>>) => {
  const height = Number(words['height_m']);
  return {
    holes: words['sensor'] === 'barrier' ? 4 : 2,
    cable_m: 2 + 3 * height,
    hours: 2,
    cost: 60 + 100 * height ** 2,
  };
};
const STUDIES = {
  finished: () => inventedStudy({ effort: many }),
  unfinished: () =>
    inventedStudy({
      unfinished: { 3: 4, 8: 0 },
      failed: { 5: 'the pair is wider than the jamb is deep, which no frame of this door allows' },
      leftOut: (words) => words['height_m'] === '1.1' && words['sensor'] === 'slow ranger',
    }),
  'long names': () =>
    inventedStudy({
      factors: [
        { ...HEIGHT, name: 'the_height_above_the_floor_of_this_door_m' },
        {
          ...SENSOR,
          levels: SENSOR.levels.map(({ label, value }) => ({ label: label.padEnd(40, ' and more'), value })),
        },
        { ...SPACING, levels: [{ label: '0.060000000000000000000000000000000000001', value: 0.06 }] },
      ],
    }),
} as const;
type Which = keyof typeof STUDIES;
const ALL = Object.keys(STUDIES) as Which[];

describe.skipIf(missing)('the report of a study in Chromium', () => {
  let browser: Browser;
  const pages = new Map<Which, string>();

  beforeAll(async () => {
    for (const which of ALL) pages.set(which, await renderStudyReport(STUDIES[which]()));
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

  test('contrast holds in the dark too, in the darkest cell of the heat map as well', async () => {
    const page = await open('finished', 1440, 'dark');
    expect(await violations(page, CONTRAST)).toEqual([]);
    await page.context().close();
  });

  test('an unfinished study says so in the first screen of a phone', async () => {
    const page = await open('unfinished', 360);
    const top = (await page.evaluate(
      '[...document.querySelectorAll(".over b")].find((d) => d.textContent.startsWith("not finished")).getBoundingClientRect().bottom',
    )) as number;
    expect(top).toBeLessThan(900);
    await page.context().close();
  });

  test('letters in the pictures stay readable on a phone', async () => {
    const page = await open('finished', 360);
    const heights = (await page.evaluate(
      '[...document.querySelectorAll(".chart svg text")].map((t) => t.getBoundingClientRect()).filter((r) => r.width > 0 && r.width >= r.height).map((r) => r.height)',
    )) as number[];
    expect(heights.length).toBeGreaterThan(50);
    // Box height of a 9 px letter, about.
    expect(Math.min(...heights)).toBeGreaterThan(9);
    await page.context().close();
  });

  test.each(ALL)('%s prints: every table fits an A4 page, closed parts are open', async (which) => {
    // 180 mm at 96 px an inch.
    const width = 680;
    const page = await open(which, width);
    await page.emulateMedia({ media: 'print' });
    const wide = await page.evaluate(
      `[...document.querySelectorAll('table')].filter((t) => t.getBoundingClientRect().right > ${width} + 1).map((t) => t.textContent.slice(0, 60))`,
    );
    expect(wide).toEqual([]);
    const hidden = (await page.evaluate(
      'document.querySelector("details ul").getBoundingClientRect().height',
    )) as number;
    expect(hidden).toBeGreaterThan(50);
    expect((await page.pdf({ format: 'A4', pageRanges: '1-2' })).length).toBeGreaterThan(10_000);
    await page.context().close();
  });
});
