/**
 * Which readings are strays, before any curve is fitted: a mixture by expectation and maximisation.
 *
 * At each distance a reading is either normal about that distance's own centre or a stray from anywhere in the range.
 * Centres start as medians and noise as scaled median deviations, so that a few strays can't pull them; noise and the
 * share of strays are common to all distances. Each reading gets the probability that it is no stray, and counts in
 * proportion to it from then on: nothing is cut off, so noise isn't made to look smaller than it is.
 */
import type { Group } from './bench.js';
import { type Noise, type Scatter, fitNoise } from './noise.js';
import { scatterVariance } from './quantised.js';

export interface Separated {
  readonly group: Group;
  /** Mean of what is no stray. */
  readonly centre: number;
  /** Per value, the probability that it is no stray. */
  readonly kept: readonly number[];
  /** Sum of `kept`. */
  readonly size: number;
}

export interface Separation {
  readonly groups: readonly Separated[];
  readonly scatter: readonly Scatter[];
  readonly noise: Noise;
  /** Strays among the readings with an echo, as a sum of probabilities. */
  readonly strays: number;
}

export interface SeparateOptions {
  readonly step: number;
  /** Whether noise may grow with distance. */
  readonly growing: boolean;
  /** Density of strays at a reading, per unit of reading. */
  readonly density: (value: number) => number;
}

const TO_SD = 1.4826;
const SQRT_2PI = Math.sqrt(2 * Math.PI);

export function separate(groups: readonly Group[], options: SeparateOptions): Separation {
  const { step, growing, density } = options;
  let found = groups.map((group) => startOf(group, step));
  let scatter = found.map(({ group, centre }) => {
    const sd = TO_SD * median(group.values.map((x) => Math.abs(x - centre)));
    const freedom = group.values.length - 1;
    return { distance_m: group.distance_m, freedom, squares: freedom * Math.max(sd * sd, (step * step) / 12) };
  });
  let noise = fitNoise(scatter, step, growing);
  let share = 0.05;
  for (let i = 0; i < 500; i++) {
    found = found.map(({ group, centre }) => weigh(group, centre, pdfOf(noise, group, step), share, density));
    scatter = found.map(scatterOf);
    noise = fitNoise(scatter, step, growing, noise.values);
    const all = found.reduce((sum, s) => sum + s.kept.length, 0);
    const next = 1 - found.reduce((sum, s) => sum + s.size, 0) / all;
    const change = Math.abs(next - share);
    // Exactly 0 would forbid strays for good.
    share = Math.max(next, 1e-9);
    if (change < 1e-8) break;
  }
  return {
    groups: found,
    scatter,
    noise,
    strays: found.reduce((sum, s) => sum + s.kept.length - s.size, 0),
  };
}

function startOf(group: Group, step: number): Separated {
  const centre = median(group.values);
  const near = Math.max(6 * TO_SD * median(group.values.map((x) => Math.abs(x - centre))), 3 * step);
  const kept = group.values.map((x) => (Math.abs(x - centre) <= near ? 1 : 0));
  return { group, centre, kept, size: kept.reduce<number>((sum, k) => sum + k, 0) };
}

/** Normal density about 0; never narrower than rounding makes it. */
function pdfOf(noise: Noise, group: Group, step: number): (off: number) => number {
  const variance = Math.max(scatterVariance(noise.sd(group.distance_m), step), (step * step) / 12, 1e-18);
  const sd = Math.sqrt(variance);
  return (off) => Math.exp((-off * off) / (2 * variance)) / (sd * SQRT_2PI);
}

function weigh(
  group: Group,
  centre: number,
  pdf: (off: number) => number,
  share: number,
  density: (value: number) => number,
): Separated {
  const kept = group.values.map((x) => {
    const normal = (1 - share) * pdf(x - centre);
    return normal / (normal + share * density(x));
  });
  const size = kept.reduce((sum, k) => sum + k, 0);
  // Where every reading looks like a stray the centre stays: its distance is told as a misfit, not lost.
  const next = size > 0 ? kept.reduce((sum, k, i) => sum + k * group.values[i]!, 0) / size : centre;
  return { group, centre: next, kept, size };
}

function scatterOf({ group, centre, kept, size }: Separated): Scatter {
  const squares = kept.reduce((sum, k, i) => sum + k * (group.values[i]! - centre) * (group.values[i]! - centre), 0);
  return { distance_m: group.distance_m, freedom: Math.max(size - 1, 1e-6), squares };
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
