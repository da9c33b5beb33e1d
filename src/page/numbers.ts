/** Numbers as a reader of a chart wants them. */
import type { Cell } from '../report/charts/live.js';
import { count, decimal } from '../report/words.js';

const DIGITS = 3;

/** A text as it is; a number to three digits, or as the whole number it is; nothing as a dash. */
export function shown(cell: Cell): string {
  if (cell === null) return '–';
  if (typeof cell === 'string') return cell;
  if (Number.isInteger(cell) || Math.abs(cell) >= 10 ** DIGITS) return count(cell);
  return decimal(Number(cell.toPrecision(DIGITS)), 6);
}
