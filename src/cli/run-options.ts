/** The options of `run` that change the design, checked with the option's own name and turned into sets. */
import type { Issue, Problem } from '../scenario/issue.js';
import { CONTROLS, TAB_AND_LINE_FEED, literal, short } from '../engine/printable.js';
import { unitWords } from '../scenario/words.js';
import { typedNumber } from './typed-number.js';

export interface ExtentOptions {
  readonly replicates?: string;
  readonly hours?: string;
  readonly days?: string;
  readonly seed?: string;
  readonly set?: readonly string[];
}

const MAX_HOURS = 8760;

/** `KEY=VALUE` texts in the order they apply, and what is wrong with the options. */
export function setsOf(options: ExtentOptions): { sets: string[]; issues: Issue[] } {
  const sets = [...(options.set ?? [])];
  const issues: Issue[] = [];
  const refuse = (option: string, problem: Problem) => issues.push({ place: null, path: option, problem });
  const number = (option: string, text: string, whole: boolean, min: number, max: number, unit: string) => {
    const value = typedNumber(text);
    if (!Number.isFinite(value) || (whole && !Number.isInteger(value)))
      refuse(option, {
        code: 'wrong_type',
        expected: whole ? 'whole number' : 'number',
        found: literal(Number.isFinite(value) ? value : text),
        unit,
      });
    else if (value < min || value > max)
      refuse(option, {
        code: 'other',
        message: `expected ${min} to ${max} ${unitWords(unit) ?? unit}, found ${short(value)}`,
      });
    return value;
  };

  if (options.replicates !== undefined)
    sets.push(`replicates=${number('--replicates', options.replicates, true, 1, 100_000, 'runs')}`);
  if (options.hours !== undefined) sets.push(`hours=${number('--hours', options.hours, false, 0.01, MAX_HOURS, 'h')}`);
  if (options.days !== undefined)
    sets.push(`hours=${number('--days', options.days, false, 0.001, MAX_HOURS / 24, 'days') * 24}`);
  if (options.hours !== undefined && options.days !== undefined)
    refuse('--hours, --days', { code: 'other', message: 'both say how long to simulate', hint: 'give one of them' });
  if (options.seed !== undefined) {
    const { seed } = options;
    if (seed.length < 1 || seed.length > 200)
      refuse('--seed', { code: 'other', message: `expected 1 to 200 characters, found ${seed.length}` });
    else if (new RegExp(`[${CONTROLS}${TAB_AND_LINE_FEED}]`).test(seed))
      refuse('--seed', { code: 'not_text', why: 'control character' });
    else sets.push(`seed=${JSON.stringify(seed)}`);
  }
  // A wrong option has been told under its own name; the rest is still checked without it.
  return { sets: issues.length > 0 ? [...(options.set ?? [])] : sets, issues };
}
