// Names from a user's files in a page that is alive: whatever they hold, they are text.
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { pageScripts } from '../../src/cli/page-scripts.js';
import { renderReport } from '../../src/report/report.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { simulate } from '../../src/simulate/simulate.js';
import { withoutChromium } from '../needs.js';
import { Reader } from './live-page.js';

const missing = withoutChromium();

const NAMES = {
  'studio-door': '<img src=x onerror="window.hit=1">',
  'shed-door': '</script><script>window.hit=2</script>\'"`&amp;',
  studio: '\u202eoidutS \u05d0\u05d1\u05d2 <b>bold</b> {{constructor}}',
  shed: '🛖👩‍👩‍👧'.repeat(6),
  'Studio and shed': '${window.hit=3} signal("width") <!-- ]]> javascript:window.hit=4',
};

describe.skipIf(missing)('hostile names in Chromium', () => {
  const reader = new Reader();
  let page: Page;
  beforeAll(async () => {
    const text = readFileSync('scenarios/two-doors.yaml', 'utf8');
    const { design } = parseScenario(text, 'x.yaml', { sets: ['replicates=3', 'hours=2'] });
    const plain = { design: design!, ...simulate(design!) };
    // A scenario with such names is refused, and so is a folder with them; the page must not rely on it.
    let json = JSON.stringify(plain);
    for (const [name, hostile] of Object.entries(NAMES))
      json = json.replaceAll(JSON.stringify(name), JSON.stringify(hostile));
    const run = JSON.parse(json) as typeof plain;
    const about = { ...run, sources: [], version: '0.0.0', design_sha256: '0'.repeat(64) };
    await reader.start();
    page = await reader.open(await renderReport({ ...about, ...pageScripts() }));
  });
  afterAll(() => reader.end());

  test('everything is brought to life, opened, picked and asked: nothing of them runs or becomes markup', async () => {
    // Once our own script is in.
    await page.locator('.picks').waitFor();
    const before = await page.evaluate('document.querySelectorAll("script, img, b, style").length');
    const ids = (await page.evaluate(
      '[...document.querySelectorAll("figure.chart[id]:has(.still)")].map((figure) => figure.id)',
    )) as string[];
    expect(ids.length).toBeGreaterThan(8);
    for (const id of ids) {
      const figure = page.locator(`#${id}`);
      await figure.scrollIntoViewIfNeeded();
      await figure.getByRole('button', { name: 'Table' }).click();
      await figure.getByRole('slider').focus();
      await page.keyboard.press('End');
    }
    await page.locator('.ask').scrollIntoViewIfNeeded();
    await page.locator('.found:not([aria-busy]) .refused').waitFor();
    const doors = page.locator('.picks').getByLabel('Door', { exact: true });
    expect(await doors.locator('option').allTextContents()).toEqual([
      'all 2',
      NAMES['studio-door'],
      NAMES['shed-door'],
    ]);
    await doors.selectOption(NAMES['shed-door']);
    expect(await page.evaluate('window.hit')).toBe(undefined);
    // An answer has bold numbers and no other markup of that sort.
    const after = await page.evaluate('document.querySelectorAll("script, img, style").length');
    const own = await page.evaluate(
      'document.querySelectorAll("b").length - document.querySelectorAll(".found b").length',
    );
    expect(Number(after) + Number(own)).toBe(before);
    expect(reader.trouble).toEqual([]);
  });

  test('the answer says them as they are written', async () => {
    expect(await page.locator('.found').innerText()).toContain('<img src=x onerror=');
  });
});
