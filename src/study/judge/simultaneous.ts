/** Many comparisons at once: intervals and probabilities that hold for all of them together. */
import { tCdf, tQuantile } from '../../engine/distribution-functions.js';
import { LEVEL } from '../../score/jackknife.js';
import type { Difference } from '../summary-schema.js';
import type { Contrast } from './samples.js';

/** One of `family` intervals that hold all at once with 95 % confidence, by Bonferroni's inequality. */
export function simultaneous({ value, error, freedom }: Contrast, family: number): Difference {
  if (Number.isNaN(error)) return { value, low: null, high: null };
  const half = tQuantile(1 - (1 - LEVEL) / 2 / family, freedom) * error;
  return { value, low: value - half, high: value + half };
}

/** Two-sided probability of a difference as large by chance; null without an error to hold it against. */
export function probability({ value, error, freedom }: Contrast): number | null {
  if (Number.isNaN(error)) return null;
  if (error === 0) return value === 0 ? 1 : 0;
  return Math.min(1, 2 * tCdf(-Math.abs(value / error), freedom));
}

/**
 * Probabilities adjusted so that rejecting all below 0.05 goes wrong anywhere in at most 5 of 100 studies.
 * Source: S. Holm, "A simple sequentially rejective multiple test procedure", Scandinavian Journal of Statistics 6, 1979,
 * 65–70.
 */
export function holm(p: readonly number[]): number[] {
  const order = p.map((_, i) => i).sort((a, b) => p[a]! - p[b]! || a - b);
  const adjusted: number[] = [];
  let largest = 0;
  order.forEach((i, rank) => {
    largest = Math.max(largest, Math.min(1, p[i]! * (p.length - rank)));
    adjusted[i] = largest;
  });
  return adjusted;
}
