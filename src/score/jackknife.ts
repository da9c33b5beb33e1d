/**
 * Intervals over replicates: the delete-one jackknife with Student's t.
 *
 * Passages of one day are not independent, replicates are; so the replicate is what is left out. Source: J. W. Tukey,
 * "Bias and confidence in not-quite large samples" (abstract), Annals of Mathematical Statistics 29, 1958, 614; for
 * ratios R. G. Miller, "The jackknife: a review", Biometrika 61, 1974, 1–15.
 */
import { tQuantile } from '../engine/distribution-functions.js';

/** Confidence of every interval. */
export const LEVEL = 0.95;

/** Half-width of the 95 % interval of an estimate from its values with each replicate left out in turn; at least two. */
export function jackknifeHalfWidth(leaveOneOut: readonly number[]): number {
  const n = leaveOneOut.length;
  return tQuantile((1 + LEVEL) / 2, n - 1) * jackknifeError(leaveOneOut);
}

/** Standard error of an estimate by the jackknife: sqrt((n − 1)/n · Σ(θᵢ − θ̄)²). */
export function jackknifeError(leaveOneOut: readonly number[]): number {
  const n = leaveOneOut.length;
  // Differences from the first keep equal values exactly equal: their error is 0, not a rounding.
  const origin = leaveOneOut[0] ?? 0;
  let sum = 0;
  for (const value of leaveOneOut) sum += value - origin;
  const mean = sum / n;
  let squares = 0;
  for (const value of leaveOneOut) {
    const off = value - origin - mean;
    squares += off * off;
  }
  return Math.sqrt(((n - 1) / n) * squares);
}
