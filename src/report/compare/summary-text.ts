/** What a comparison comes to, in a few lines for the terminal. */
import { foldedLines } from '../plain-text.js';
import type { CompareRun } from './runs.js';
import { unwise } from './unwise.js';
import { compareVerdict } from './verdict.js';

/** Width text is wrapped to, characters. */
const WIDTH = 78;
const PARAGRAPHS = 2;

/** Ends with a line break. */
export function compareSummaryText(runs: readonly CompareRun[]): string {
  const { headline, paragraphs } = compareVerdict(runs);
  const [first] = unwise(runs);
  const all = [headline, ...paragraphs.slice(0, PARAGRAPHS), `Unwise to conclude: ${first}`];
  return `${all.map((text) => foldedLines(text, WIDTH).join('\n')).join('\n')}\n`;
}
