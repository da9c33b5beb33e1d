/** A design's replicates under one metric: the estimate, and what it is with each replicate left out in turn. */
import { jackknifeError } from '../../score/jackknife.js';
import type { Measure, Ratio } from './measure.js';

export interface Sample {
  readonly value: number;
  /** With each replicate left out. */
  readonly without: readonly number[];
}

/** @returns null where there is nothing to divide by, with all replicates or with one left out */
export function sampleOf(
  ratios: readonly Ratio[],
  { options: { scale = 1 } }: Pick<Measure, 'options'>,
): Sample | null {
  let events = 0;
  let exposure = 0;
  for (const ratio of ratios) {
    events += ratio.events;
    exposure += ratio.exposure;
  }
  if (exposure === 0) return null;
  const without = ratios.map((ratio) => (scale * (events - ratio.events)) / (exposure - ratio.exposure));
  return ratios.length > 1 && without.some((one) => !Number.isFinite(one))
    ? null
    : { value: (scale * events) / exposure, without };
}

/** A difference, its standard error and the degrees of freedom that its t has. */
export interface Contrast {
  readonly value: number;
  /** NaN with fewer than two replicates. */
  readonly error: number;
  readonly freedom: number;
}

/**
 * a − b. Under the same crowds, of as many replicates each, replicate by replicate, so that what the crowds did falls out;
 * otherwise with the errors of both and Welch's degrees of freedom (B. L. Welch, "The generalization of Student's problem
 * when several different population variances are involved", Biometrika 34, 1947, 28–35).
 */
export function contrast(a: Sample, b: Sample, paired: boolean): Contrast {
  const value = a.value - b.value;
  const [n, m] = [a.without.length, b.without.length];
  if (Math.min(n, m) < 2) return { value, error: Number.NaN, freedom: 0 };
  if (paired) return { value, error: jackknifeError(a.without.map((one, r) => one - b.without[r]!)), freedom: n - 1 };
  const [va, vb] = [jackknifeError(a.without), jackknifeError(b.without)].map((error) => error * error) as [
    number,
    number,
  ];
  const both = va + vb;
  // Both² ÷ (va²/(n − 1) + vb²/(m − 1)), multiplied through so that samples of one size need no division more.
  const freedom = both === 0 ? Math.min(n, m) - 1 : ((n - 1) * both * both) / (va * va + vb * vb * ((n - 1) / (m - 1)));
  return { value, error: Math.sqrt(both), freedom };
}

/** The mean of several samples of the same replicates. */
export function meanSample(samples: readonly Sample[]): Sample {
  const mean = (of: (sample: Sample) => number): number =>
    samples.reduce((sum, sample) => sum + of(sample), 0) / samples.length;
  return {
    value: mean((one) => one.value),
    without: samples[0]!.without.map((_, r) => mean((one) => one.without[r]!)),
  };
}
