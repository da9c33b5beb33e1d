/** Which of several runs is the best in one number, which can't be told from it, which are surely behind. */
import { type RunDifference, difference, judged } from './differences.js';
import type { CompareMeasure } from './measures.js';
import type { CompareRun } from './runs.js';

export interface Rival {
  readonly run: CompareRun;
  /** The rival minus the best. */
  readonly behind: RunDifference;
}

export interface Best {
  readonly run: CompareRun;
  /** Surely worse, the nearest first. */
  readonly worse: readonly Rival[];
  /** Not told from it. */
  readonly unsure: readonly Rival[];
  /** The same in every replicate. */
  readonly alike: readonly Rival[];
}

/**
 * Intervals hold for all pairs of runs at once, for it is chance, too, that says which one is the best.
 *
 * @returns null where fewer than two runs have the number
 */
export function bestOf(measure: CompareMeasure, runs: readonly CompareRun[]): Best | null {
  const sign = measure.best === 'more' ? -1 : 1;
  const value = (run: CompareRun): number => sign * measure.estimate(run)!.value!;
  const known = runs.filter((run) => measure.estimate(run)?.value != null);
  if (known.length < 2) return null;
  const family = (runs.length * (runs.length - 1)) / 2;
  const to = (run: CompareRun, best: CompareRun): RunDifference => difference(measure, run, best, family);
  const order = [...known].sort((a, b) => value(a) - value(b));
  // Over the replicates that two runs share another may be ahead than over all of each.
  const run =
    order.find((one) => order.every((other) => other === one || judged(measure, to(other, one).atOnce) !== 'better')) ??
    order[0]!;
  const rivals = order.filter((other) => other !== run).map((other): Rival => ({ run: other, behind: to(other, run) }));
  const are = (...how: string[]): Rival[] =>
    rivals.filter(({ behind }) => how.includes(judged(measure, behind.atOnce)));
  return { run, worse: are('worse'), unsure: are('unsure', 'better'), alike: are('alike') };
}
