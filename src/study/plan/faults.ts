/** What can be wrong with a study, at its place in the file. */
import type { Finding, Issue } from '../../scenario/issue.js';
import { type MeasureNames, measureOf } from '../judge/measure.js';
import { ConditionFault } from './condition.js';
import { type Factor, type Level, combinationWords } from './factor.js';
import type { Study } from './schema.js';

/** Names that columns of the results have already. */
const TAKEN = new Set(['design', 'replicate', 'door', 'logic']);

/** Metrics that no design with these names has. */
export function metricFaults(study: Study, names: MeasureNames): Finding[] {
  const { rank_by, replicates } = study;
  const asked = [
    [['rank_by'], rank_by],
    ...(typeof replicates === 'object' ? [[['replicates', 'until'], replicates.until] as const] : []),
  ] as const;
  return asked.flatMap(([path, metric]) => {
    const measure = measureOf(metric, names);
    return typeof measure === 'string' ? [fault([...path], measure)] : [];
  });
}

/** Names of factors that can't be those of columns. */
export function nameFaults(factors: readonly Factor[]): Finding[] {
  return factors.flatMap(({ name }, f): Finding[] => {
    const path = ['factors', f];
    if (TAKEN.has(name) || name.includes('.'))
      return [{ path, at: 'value', problem: { code: 'reserved_name', what: 'factor', name } }];
    if (factors.findIndex((one) => one.name === name) < f)
      return [{ path, at: 'value', problem: { code: 'duplicate_name', what: 'factor', name } }];
    return [];
  });
}

/** What is wrong with a combination, at the factor that set the key, each sort of fault once. */
export function placed(
  issues: readonly Issue[],
  factors: readonly Factor[],
  levels: readonly number[],
  before: readonly (Finding | Issue)[],
): (Finding | Issue)[] {
  const said = new Set(before.map(({ problem }) => JSON.stringify(problem)));
  const combination = combinationWords(factors, levels);
  return issues
    .filter(({ problem }) => !said.has(JSON.stringify(problem)))
    .map((issue) => {
      if (issue.place !== null) return issue;
      const key = keyOfSet(issue);
      const f = factors.findIndex((factor, i) => setsKey(factor.levels[levels[i]!]!, key));
      const path = ['factors', f >= 0 ? f : 0];
      return { path, at: 'value', problem: issue.problem, of: `${combination}: ${key}` } as Finding;
    });
}

/** The key that an issue of a set is about: there it is told as that of an option. */
export function keyOfSet({ path }: Issue): string {
  return path.replace(/^(?:after )?--set:? ?/, '');
}

function setsKey({ sets }: Level, key: string): boolean {
  return sets.some(
    ({ path }) => path === key || key.startsWith(`${path}.`) || path.split('.').at(-1) === key.split('.').at(-1),
  );
}

export function unique(problems: readonly (Finding | Issue)[]): (Finding | Issue)[] {
  const seen = new Set<string>();
  return problems.filter((one) => {
    const key = JSON.stringify([one.path, one.problem]);
    return !seen.has(key) && seen.add(key);
  });
}

/** What is wrong with a condition; any other error goes on. */
export function conditionFault(path: (string | number)[], error: unknown): Finding {
  if (error instanceof ConditionFault) return fault(path, error.message);
  throw error;
}

export function fault(path: (string | number)[], message: string): Finding {
  return { path, at: 'value', problem: { code: 'other', message } };
}

export function tooMany(message: string): Finding {
  return {
    path: ['factors'],
    at: 'key',
    problem: { code: 'other', message, hint: 'fewer values, or a condition under `where`' },
  };
}
