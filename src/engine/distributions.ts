/**
 * Distributions by inverse transform: one uniform in, one value out.
 *
 * Every draw spends exactly one uniform on (0, 1) and grows (never falls) with it, so a changed mean or rate shifts a
 * crowd without reshuffling it: designs and assumptions are compared under common random numbers. All functions are
 * pure and allocate nothing. The uniform comes from `Stream.at`, which never gives 0 or 1.
 */
import { exp, ln } from './arithmetic.js';
import { normalCdf, normalQuantile } from './distribution-functions.js';

/** Uniform between `low` and `high`. */
export function uniform(u: number, low: number, high: number): number {
  return low + (high - low) * u;
}

/** Normal with mean `mean` and standard deviation `sd` (at least 0). */
export function normal(u: number, mean: number, sd: number): number {
  return mean + sd * normalQuantile(u, 0, 1);
}

const BELOW_3_SD = normalCdf(-3, 0, 1);

/**
 * Standard normal cut off at −3 and +3: the scatter of body measures. Its standard deviation is 0.98658
 * (1 − 6 φ(3)/(2 Φ(3) − 1) = 0.97334 is the variance).
 */
export function standardWithin3(u: number): number {
  return normalQuantile(uniform(u, BELOW_3_SD, 1 - BELOW_3_SD), 0, 1);
}

/** Exponential with mean `mean`: stays, gaps, service times. */
export function exponential(u: number, mean: number): number {
  return -mean * ln(1 - u);
}

/** Gap to the next event of a Poisson process of `rate` events per unit of time; infinite at rate 0. */
export function poissonGap(u: number, rate: number): number {
  return rate > 0 ? exponential(u, 1 / rate) : Infinity;
}

/** Log-normal with the given median, `sigma` the standard deviation of the logarithm. */
export function lognormal(u: number, median: number, sigma: number): number {
  return median * exp(sigma * normalQuantile(u, 0, 1));
}

/**
 * Index of the share that `u` falls in: by running totals `cumulative`, which rise to a last total of any positive
 * size. An entry of share 0 is never picked. Bisection: O(log n).
 *
 * @throws {RangeError} when there is nothing to pick from
 */
export function pick(u: number, cumulative: readonly number[]): number {
  const total = cumulative[cumulative.length - 1] ?? 0;
  if (!(total > 0)) throw new RangeError('pick: shares must add up to more than 0');
  const target = u * total;
  let low = 0;
  let high = cumulative.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((cumulative[middle] as number) > target) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Running totals of shares, as {@link pick} wants them. */
export function runningTotals(shares: readonly number[]): number[] {
  let total = 0;
  return shares.map((share) => (total += share));
}
