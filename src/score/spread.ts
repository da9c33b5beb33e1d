/** Spread of drift: how far apart the net errors of equally long stretches of traffic lie. */
import { WINDOW, type WindowSums } from './door-counts.js';
import { bare, FEW_REPLICATES, jackknifeEstimate, unknown } from './estimates.js';
import type { Estimate } from './metrics-schema.js';

/** Standard deviation of the net error over disjoint windows of 100 crossings, persons; one entry per replicate. */
export function spreadEstimate(replicates: readonly Readonly<WindowSums>[]): Estimate {
  const all: WindowSums = { n: 0, sum: 0, sum_sq: 0 };
  for (const windows of replicates) {
    all.n += windows.n;
    all.sum += windows.sum;
    all.sum_sq += windows.sum_sq;
  }
  if (all.n < 2) return unknown(`fewer than two windows of ${WINDOW} crossings`, all.n);
  const value = deviation(all);
  if (replicates.length < 2) return bare(value, all.n, FEW_REPLICATES);
  const without = replicates.map((windows) => ({
    n: all.n - windows.n,
    sum: all.sum - windows.sum,
    sum_sq: all.sum_sq - windows.sum_sq,
  }));
  if (without.some((rest) => rest.n < 2)) {
    return bare(value, all.n, `fewer than two windows of ${WINDOW} crossings without one of the replicates`);
  }
  return jackknifeEstimate(value, without.map(deviation), all.n, 0);
}

/** Sample standard deviation from integer sums: exact up to the root. */
function deviation({ n, sum, sum_sq }: WindowSums): number {
  return Math.sqrt(Math.max(0, (n * sum_sq - sum * sum) / (n * (n - 1))));
}
