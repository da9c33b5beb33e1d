/** A factor of a study spelt out: its name, its levels, and what each level sets. */
import { printable, short } from '../../engine/printable.js';
import type { Finding, Problem } from '../../scenario/issue.js';
import { isPlainObject } from '../../scenario/key-path.js';
import type { Assignment } from '../../scenario/set-pair.js';
import type { FactorInput } from './schema.js';

export interface Level {
  readonly label: string;
  /** Its number, where it is one. */
  readonly value: number | null;
  readonly sets: readonly Assignment[];
}

export interface Factor {
  readonly name: string;
  readonly keys: readonly string[];
  readonly levels: readonly Level[];
}

/** `height_m 0.9, sensor barrier`: a design by the levels of its factors. */
export function combinationWords(
  factors: readonly { readonly name: string; readonly levels: readonly { readonly label: string }[] }[],
  levels: readonly number[],
): string {
  return factors.map(({ name, levels: all }, f) => `${name} ${all[levels[f]!]!.label}`).join(', ');
}

/** The same levels but for one factor. */
export const withLevel = (levels: readonly number[], factor: number, level: number): number[] =>
  levels.map((own, f) => (f === factor ? level : own));

const LONGEST_LABEL = 40;
const MOST_LEVELS = 1000;
const WAYS = 'expected one of: key with values; key with from, to and step; keys with values; variants';

/** @param f its position, from 0 @returns the factor, or what is wrong with it */
export function factorOf(input: FactorInput, f: number): Factor | Finding[] {
  const at = (problem: Problem, ...inside: (string | number)[]): Finding[] => [
    { path: ['factors', f, ...inside], at: 'value', problem },
  ];
  const { key, keys, values, from, to, step, variants } = input;
  const range = from !== undefined || to !== undefined || step !== undefined;
  const sources = [values !== undefined, range, variants !== undefined].filter(Boolean).length;
  const named = [key !== undefined, keys !== undefined].filter(Boolean).length;
  if (sources !== 1 || named !== (variants ? 0 : 1) || (keys && range))
    return at({ code: 'other', message: WAYS, hint: 'see `jambeam keys`, under "What a study can say"' });
  if (variants) {
    const twice = variants.find((one, i) => variants.findIndex(({ name }) => name === one.name) < i);
    if (twice) return at({ code: 'duplicate_name', what: 'variant', name: twice.name }, 'variants');
    return {
      name: input.name ?? 'variant',
      keys: [...new Set(variants.flatMap(({ set }) => Object.keys(set)))],
      levels: variants.map(({ name, set }) => ({
        label: name,
        value: null,
        sets: Object.entries(set).map(([path, value]) => ({ path, value })),
      })),
    };
  }
  if (keys) return pairedFactor(input.name, keys, values!, at);
  const name = input.name ?? key!.split('.').at(-1)!;
  if (range) {
    const all = rangeOf(from, to, step);
    if (typeof all === 'string') return at({ code: 'other', message: all });
    return { name, keys: [key!], levels: all.map((value) => level([key!], [value])) };
  }
  return { name, keys: [key!], levels: values!.map((value) => level([key!], [value])) };
}

function pairedFactor(
  name: string | undefined,
  keys: readonly string[],
  values: readonly unknown[],
  at: (problem: Problem, ...inside: (string | number)[]) => Finding[],
): Factor | Finding[] {
  const wrong = values.flatMap((tuple, i) =>
    Array.isArray(tuple) && tuple.length === keys.length
      ? []
      : at({ code: 'other', message: `expected a list of ${keys.length} values, one for each key` }, 'values', i),
  );
  if (wrong.length > 0) return wrong;
  return {
    name: name ?? keys[0]!.split('.').at(-1)!,
    keys,
    levels: values.map((tuple) => level(keys, tuple as unknown[])),
  };
}

function level(keys: readonly string[], values: readonly unknown[]): Level {
  const words = values.map((value) => wordOf(value));
  return {
    // Values that all keys share are said once.
    label: printable([...new Set(words)].join(' / '), LONGEST_LABEL),
    value: values.every((value) => value === values[0]) && typeof values[0] === 'number' ? values[0] : null,
    sets: keys.map((path, k) => ({ path, value: values[k] })),
  };
}

function wordOf(value: unknown): string {
  if (typeof value === 'number') return short(value);
  if (Array.isArray(value)) return value.map(wordOf).join(' + ');
  if (isPlainObject(value)) {
    const name = value['name'] ?? value['use'] ?? value['kind'];
    return typeof name === 'string' ? name : JSON.stringify(value);
  }
  return String(value);
}

/** Numbers from step to step, without the dust of adding; in words what is wrong. */
function rangeOf(from?: number, to?: number, step?: number): number[] | string {
  if (from === undefined || to === undefined || step === undefined) return 'a range needs from, to and step';
  if (to < from) return `from is ${short(from)} and to is ${short(to)}: a range goes upwards`;
  const count = Math.floor((to - from) / step + 1e-9) + 1;
  if (count > MOST_LEVELS) return `the range has ${count} values; at most ${MOST_LEVELS}`;
  return Array.from({ length: count }, (_, i) => Number((from + i * step).toPrecision(12)));
}
