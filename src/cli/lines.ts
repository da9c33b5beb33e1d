/** Sentences folded to the width of a terminal, and shares and tables as a terminal shows them. */
import Table from 'cli-table3';
import { NO_BORDERS, foldedLines } from '../report/plain-text.js';
import { count, decimal } from '../report/words.js';
import type { Share } from '../simulate/weighted.js';

/** Wide enough for a table of a few columns, narrow enough for half a screen. */
const WIDTH = 96;

/** Every line moved to the right but empty ones. */
export const indented = (table: string, indent = '  '): string => table.replace(/^(?=.)/gm, indent);

/** Words folded at blanks (not at no-break ones) into lines that begin with `indent`; ends in a line break. */
export function folded(text: string, indent = ''): string {
  return foldedLines(text, WIDTH - indent.length)
    .map((one) => `${indent}${one}\n`)
    .join('');
}

/** A number with at most this many decimals, 0 included. */
export function rounded(x: number, decimals: number): string {
  return decimals === 0 ? count(x) : decimal(x, decimals);
}

/** 'all', 'none', '97.5 %', 'under 0.1 %'. */
export function shareWords({ value }: Pick<Share, 'value'>): string {
  if (value <= 0) return 'none';
  // Sums of shares may end a last bit below 1.
  if (value > 1 - 1e-9) return 'all';
  if (value < 0.001) return 'under 0.1\u00a0%';
  if (value > 0.999) return 'over 99.9\u00a0%';
  return `${rounded(100 * value, value < 0.1 || value > 0.9 ? 1 : 0)}\u00a0%`;
}

/** 'all walkers', 'no walkers', '97.5 % of walkers'. */
export function walkersWords(share: Pick<Share, 'value'>): string {
  const words = shareWords(share);
  return words === 'all' ? 'all walkers' : words === 'none' ? 'no walkers' : `${words} of walkers`;
}

/** Columns side by side without lines; the first row is the head if it is painted so. Ends in a line break. */
export function columns(rows: readonly (readonly string[])[], align: readonly ('left' | 'right')[]): string {
  const table = new Table({
    chars: NO_BORDERS,
    style: { 'padding-left': 0, 'padding-right': 2, border: [], head: [] },
    colAligns: [...align],
  });
  for (const row of rows) table.push([...row]);
  return `${table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n')}\n`;
}
