// Drawings of rangers in a real browser: every mount, wide and on a phone, nothing over anything else.
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderReport } from '../../src/report/report.js';
import { RANGER_KINDS, oneDoor, rangerDesign, rangerInput } from '../report/ranger-fixture.js';
import { WCAG_AND_BEST_PRACTICE, violations } from './axe.js';
import { CHROMIUM, withoutChromium } from '../needs.js';

const missing = withoutChromium();

describe.skipIf(missing)('rangers in Chromium', () => {
  let browser: Browser;
  const pages = new Map<string, string>();

  beforeAll(async () => {
    for (const kind of RANGER_KINDS) pages.set(kind, await renderReport(rangerInput(kind)));
    // One door is as good as seven to the rules, and much quicker.
    const alone = oneDoor(rangerDesign('ultrasonic-ranger'), 'many');
    pages.set('alone', await renderReport(rangerInput('ultrasonic-ranger', alone)));
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu'] });
  });
  afterAll(async () => {
    await browser?.close();
  });

  async function open(kind: string, width: number): Promise<Page> {
    const context = await browser.newContext({ viewport: { width, height: 900 } });
    const page = await context.newPage();
    await page.setContent(pages.get(kind) ?? '');
    return page;
  }

  // Runs in the page: pairs of labels whose boxes share more than a hair, and labels that stick out of their drawing.
  const CLASHES = `[...document.querySelectorAll('.drawing')].flatMap((svg) => {
    const door = svg.querySelector('title').textContent;
    const frame = svg.getBoundingClientRect();
    const labels = [...svg.querySelectorAll('text')].map((t) => ({ text: t.textContent, box: t.getBoundingClientRect() }));
    const over = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.3 * a.height;
    const pairs = labels.flatMap((a, i) => labels.slice(i + 1).filter((b) => over(a.box, b.box)).map((b) => door + ': ' + a.text + ' / ' + b.text));
    const out = labels.filter(({ box }) => box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 2 || box.bottom > frame.bottom + 2).map((a) => door + ': ' + a.text + ' sticks out');
    return [...pairs, ...out];
  })`;

  test.each(RANGER_KINDS.flatMap((kind) => [1280, 390].map((width) => [kind, width] as const)))(
    '%s at %i px: no label on another or beyond its drawing, nothing scrolls sideways',
    async (kind, width) => {
      const page = await open(kind, width);
      expect(await page.evaluate('document.querySelectorAll(".drawing text").length')).toBeGreaterThan(100);
      expect(await page.evaluate(CLASHES)).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
      await page.context().close();
    },
  );

  test('no violation of WCAG 2.2 AA or of best practice', async () => {
    const page = await open('alone', 390);
    expect(await violations(page, WCAG_AND_BEST_PRACTICE)).toEqual([]);
    await page.context().close();
  });

  test('every drawing has its name and its description', async () => {
    const page = await open('ultrasonic-ranger', 1280);
    // As a screen reader gets it: the name is the title with the description.
    for (const view of ['to scale, seen walking forward', 'from above']) {
      const name = new RegExp(`^Door .* ${view} The .*Ranger .*(above the floor|from the left jamb)`);
      expect(await page.getByRole('img', { name }).count()).toBe(7);
    }
    await page.context().close();
  });

  test('on paper the beams’ table keeps to its half of the page', async () => {
    const page = await open('ultrasonic-ranger', 680);
    await page.emulateMedia({ media: 'print' });
    const over = await page.evaluate(
      '[...document.querySelectorAll(".doorway .scroll")].map((s) => s.scrollWidth - s.clientWidth)',
    );
    for (const px of over as number[]) expect(px).toBeLessThanOrEqual(1);
    await page.context().close();
  });
});
