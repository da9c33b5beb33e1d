/** Rules of accessibility, asked in the page itself: gathering and sending every node that is right takes most of the time. */
import axe from 'axe-core';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

export const WCAG_AND_BEST_PRACTICE = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
export const CONTRAST: axe.RunOnly = { type: 'rule', values: ['color-contrast'] };

/** What a page with all its closed parts opened breaks, a line each: the rule and the nodes. */
export async function violations(page: Page, runOnly: axe.RunOnly | string[]): Promise<string[]> {
  await page.evaluate('for (const d of document.querySelectorAll("details")) d.open = true');
  await page.evaluate(axe.source);
  const options: axe.RunOptions = { runOnly, resultTypes: ['violations'] };
  const { passed, broken } = (await page.evaluate(`axe.run(document, ${JSON.stringify(options)}).then((found) => ({
    passed: found.passes.length,
    broken: found.violations.map((v) => v.id + ': ' + v.nodes.map((n) => n.html.slice(0, 200)).join(' | ')),
  }))`)) as { passed: number; broken: string[] };
  expect(passed).toBeGreaterThan(0);
  return broken;
}
