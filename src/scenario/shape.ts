/** A value against a schema: every complaint of zod as one of our problems, at the key or value that caused it. */
import { z } from 'zod';
import type { Finding, KeyPath, Problem, ShapeProblem } from './issue.js';
import { valueAt } from './key-path.js';
import { nearest } from '../engine/nearest.js';
import { type Peeled, peel } from '../engine/peel.js';
import { literal } from '../engine/printable.js';
import { alternative, knownKeys, rangeOf, schemaAt } from './schema-walk.js';
import { suspectNumber, suspectText } from './unit.js';

/** Where keys of a given name exist in the scenario, for keys that were put in the wrong place. */
export type KeyIndex = ReadonlyMap<string, readonly string[]>;

export type Shape<T> = { readonly data: T; readonly findings: readonly [] } | { data: null; findings: Finding[] };

/** `value` parsed by `schema`, or every reason why not. */
export function checkShape<S extends z.ZodType>(schema: S, value: unknown, elsewhere?: KeyIndex): Shape<z.infer<S>> {
  const result = schema.safeParse(value);
  if (result.success) return { data: result.data, findings: [] };
  const context = { schema, root: value, elsewhere };
  return { data: null, findings: withoutEchoes(findingsOf(result.error.issues, [], context)) };
}

interface Context {
  readonly schema: z.ZodType;
  readonly root: unknown;
  readonly elsewhere: KeyIndex | undefined;
}
type RawIssue = z.core.$ZodIssue;

function findingsOf(issues: readonly RawIssue[], base: KeyPath, context: Context): Finding[] {
  return issues.flatMap((issue) => findingOf(issue, [...base, ...(issue.path as (string | number)[])], context));
}

function findingOf(issue: RawIssue, path: KeyPath, context: Context): Finding[] {
  const value = valueAt(context.root, path);
  const at = schemaAt(context.schema, context.root, path);
  if (value === undefined && path.length > 0) return [missing(path, at, discriminators(issue))];
  if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => unknownKey(key, path, value, at, context));
  if (issue.code === 'invalid_union') return unionFindings(issue, path, value, at, context);
  if (issue.code === 'invalid_key')
    return [{ path, at: 'key', problem: { code: 'bad_name', found: String(path.at(-1)) } }];
  return [{ path, at: 'value', problem: problemOf(issue, value, at) }];
}

function missing(path: KeyPath, at: Peeled | undefined, choices: readonly string[] | undefined): Finding {
  const { description, unit } = at?.meta ?? {};
  const key = String(path.at(-1));
  // Its own place does not exist; a place that leads nowhere is the parent's.
  return { path, at: 'key', problem: { code: 'missing_key', key, description, unit, choices } };
}

/** Keys of earlier versions that have another name now. */
const RENAMED: ReadonlyMap<string, string> = new Map([['emitter_jamb', 'mount']]);

function unknownKey(key: string, path: KeyPath, value: unknown, at: Peeled | undefined, context: Context): Finding {
  const known = at ? knownKeys(at.core, value) : [];
  const belongs = context.elsewhere?.get(key);
  const present = value as object;
  const problem: Problem = {
    code: 'unknown_key',
    key,
    known: known.filter((other) => !Object.hasOwn(present, other)),
    nearest: belongs ? undefined : (known.find((other) => other === RENAMED.get(key)) ?? nearest(key, known)),
    belongs,
  };
  return { path: [...path, key], at: 'key', problem };
}

/** What the key that tells alternatives apart may hold, when that key is to blame. */
function discriminators(issue: RawIssue): readonly string[] | undefined {
  return issue.code === 'invalid_union' ? (issue as { options?: readonly unknown[] }).options?.map(String) : undefined;
}

/** Only the alternative the user meant is reported; which that is, the value's type and discriminator tell. */
function unionFindings(
  issue: z.core.$ZodIssueInvalidUnion,
  path: KeyPath,
  value: unknown,
  at: Peeled | undefined,
  context: Context,
): Finding[] {
  if (issue.errors.length === 0) {
    return [{ path, at: 'value', problem: notOneOf(discriminators(issue) ?? [], value) }];
  }
  // The alternative that objects to something inside the value, or to its size, took its type for right.
  const meant = issue.errors.find(
    (errors) => !errors.some((error) => error.path.length === 0 && isTypeError(error, value)),
  );
  if (meant) return findingsOf(meant, path, context);
  const options = at?.core instanceof z.ZodUnion ? (at.core.options as readonly z.ZodType[]) : [];
  const choices = options.flatMap((option) => (option instanceof z.ZodEnum ? option.options.map(String) : []));
  if (typeof value === 'string' && choices.length > 0)
    return [{ path, at: 'value', problem: notOneOf(choices, value) }];
  const expected = options.map((option) => typeName(option)).join(' or ');
  const unit = at?.meta.unit;
  const suspected = typeof value === 'string' ? suspectText(value, unit) : undefined;
  const problem: Problem = suspected ?? { code: 'wrong_type', expected, found: literal(value), unit };
  return [{ path, at: 'value', problem }];
}

function isTypeError(error: RawIssue, value: unknown): boolean {
  if (error.code === 'invalid_type') return !(error.expected === 'int' && typeof value === 'number');
  return error.code === 'invalid_value' || error.code === 'invalid_union';
}

function problemOf(issue: RawIssue, value: unknown, at: Peeled | undefined): Problem {
  const unit = at?.meta.unit;
  const chosen = at?.core instanceof z.ZodUnion ? alternative(at.core, value) : at?.core;
  const range = chosen ? rangeOf(peel(chosen).core) : {};
  switch (issue.code) {
    case 'invalid_type': {
      if (at?.meta.form === 'clock' && value !== null) return { code: 'bad_clock', found: literal(value) };
      const suspected = typeof value === 'string' ? suspectText(value, unit) : undefined;
      return suspected ?? { code: 'wrong_type', expected: expectedType(issue.expected), found: literal(value), unit };
    }
    case 'too_big':
    case 'too_small':
      if (typeof value === 'number')
        return (
          suspectNumber(value, unit, range) ?? { code: 'out_of_range', ...bounded(range, value), unit, found: value }
        );
      return lengthProblem(issue, value);
    case 'invalid_format':
      return at?.meta.form === 'clock'
        ? { code: 'bad_clock', found: String(value) }
        : { code: 'bad_name', found: String(value) };
    case 'invalid_value':
      return notOneOf(issue.values.map(String), value);
    default:
      return { code: 'other', message: issue.message };
  }
}

type Range = ReturnType<typeof rangeOf>;

/** A whole number without a range of its own ends where this engine no longer tells neighbours apart. */
function bounded(range: Range, value: number): Range {
  const { MAX_SAFE_INTEGER: most } = Number;
  if (value > most && range.max === undefined) return { ...range, max: most };
  return value < -most && range.min === undefined ? { ...range, min: -most } : range;
}

function lengthProblem(issue: z.core.$ZodIssueTooBig | z.core.$ZodIssueTooSmall, value: unknown): ShapeProblem {
  const min = issue.code === 'too_small' ? Number(issue.minimum) : undefined;
  const max = issue.code === 'too_big' ? Number(issue.maximum) : undefined;
  const of = Array.isArray(value) ? 'items' : 'characters';
  return { code: 'length', of, min, max, found: (value as { length: number }).length };
}

function notOneOf(choices: readonly string[], value: unknown): ShapeProblem {
  const near = typeof value === 'string' ? nearest(value, choices) : undefined;
  return { code: 'not_one_of', choices, found: literal(value), nearest: near };
}

const TYPE_NAMES: Readonly<Record<string, string>> = {
  string: 'text',
  object: 'map',
  record: 'map',
  array: 'list',
  tuple: 'list',
  int: 'whole number',
};
function expectedType(zodName: string): string {
  return TYPE_NAMES[zodName] ?? zodName;
}

function typeName(schema: z.ZodType): string {
  const { core } = peel(schema);
  if (core instanceof z.ZodNumber) return core.isInt ? 'whole number' : 'number';
  if (core instanceof z.ZodArray) return 'list';
  if (core instanceof z.ZodString) return 'text';
  if (core instanceof z.ZodEnum) return core.options.map((option) => `"${option}"`).join(' or ');
  return core instanceof z.ZodUnion || core instanceof z.ZodObject ? 'map' : 'value';
}

/** A misspelt key is one mistake, not two: the key it was meant to be is not reported as missing as well. */
function withoutEchoes(findings: readonly Finding[]): Finding[] {
  const meant = new Set<string>();
  for (const { path, problem } of findings)
    if (problem.code === 'unknown_key' && problem.nearest)
      meant.add(JSON.stringify([...path.slice(0, -1), problem.nearest]));
  return findings.filter(({ path, problem }) => problem.code !== 'missing_key' || !meant.has(JSON.stringify(path)));
}
