/** Keys in which designs differ, in words. */
import { type DifferingKey, differingKeys } from '../../scenario/differing-keys.js';
import { named, plural } from '../words.js';
import type { CompareRun } from './runs.js';

/** Keys that say how long and how often was simulated and what is good enough, not what is built. */
const NOT_BUILT = ['name', 'seed', 'hours', 'replicates', 'targets'];
const LONGEST = 120;

/** Keys that change what is built, or who comes. */
export function builtDifferences(runs: readonly CompareRun[]): DifferingKey[] {
  return differingKeys(runs.map(({ design }) => design)).filter(
    ({ key }) => !NOT_BUILT.includes(key.split('.')[0] ?? ''),
  );
}

/** What one design has at a key; what is long is cut, what only some have as a whole is 'there'. */
export function valueWords({ key, values }: DifferingKey, value: unknown): string {
  if (value === undefined) return 'not there';
  if (typeof value === 'object' && value !== null && !Array.isArray(value) && values.includes(undefined))
    return 'there';
  if (key.startsWith('tables.')) return tableWords(values, value);
  const text = textOf(value);
  const folded = text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text;
  return `${named(folded)}${text.length > LONGEST && Array.isArray(value) ? ` (${plural(value.length, 'entry', 'entries')})` : ''}`;
}

/** Tables by whether they are equal: 'table 1', 'table 2', of how many lines. */
function tableWords(values: readonly unknown[], value: unknown): string {
  const kinds = [...new Set(values.filter((one) => one !== undefined))];
  return `table ${kinds.findIndex((one) => one === value) + 1}, ${plural(String(value).trimEnd().split('\n').length, 'line')}`;
}

function textOf(value: unknown): string {
  if (typeof value === 'string') return value;
  const words = Array.isArray(value) && value.every((one) => typeof one === 'string');
  return words ? value.join(', ') : JSON.stringify(value);
}
