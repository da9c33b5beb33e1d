/**
 * How far readings scatter at one distance, and how that grows with distance: σ(d) = a + b·d, or σ = a alone.
 *
 * Only scatter about each distance's own mean is looked at, so a curve that does not fit can't pass for noise. Sums of
 * squares S with ν degrees of freedom are taken for v·χ²(ν) (normal noise): maximum likelihood by Fisher scoring, the
 * covariance is the inverse of Fisher's information. v is what scatters after rounding (quantised.ts).
 */
import { scatterSlope, scatterVariance } from './quantised.js';
import { inverse } from './small-matrix.js';

/** Scatter at one distance. */
export interface Scatter {
  readonly distance_m: number;
  /** Degrees of freedom: readings that are no strays, less one. */
  readonly freedom: number;
  /** Sum of squares about the mean. */
  readonly squares: number;
}

export interface Noise {
  /** a, then b where noise may grow; b may be below 0 here, and a too. */
  readonly values: readonly number[];
  /** Null when the data can't tell. */
  readonly covariance: readonly (readonly number[])[] | null;
  readonly freedom: number;
  /** Noise so small against the step that readings hardly scatter. */
  readonly hidden: boolean;
  sd(distance_m: number): number;
}

/** Below this many steps of noise, rounding hides how large it is. */
export const HIDDEN = 0.3;

/** @param near values to begin with: those of nearly the same scatter */
export function fitNoise(scatter: readonly Scatter[], step: number, growing: boolean, near?: readonly number[]): Noise {
  let values = near ?? level(scatter, step, growing);
  let { likelihood, gradient, information } = likelihoodOf(scatter, values, step);
  if (likelihood === -Infinity) {
    values = level(scatter, step, growing);
    ({ likelihood, gradient, information } = likelihoodOf(scatter, values, step));
  }
  for (let i = 0; i < 100; i++) {
    const covariance = inverse(information);
    if (covariance === null) break;
    const move = covariance.map((row) => row.reduce((sum, x, j) => sum + x * gradient[j]!, 0));
    let length = 1;
    let next = likelihoodOf(scatter, moved(values, move, 1), step);
    // A step too long ends where σ is no longer positive, or where the likelihood falls.
    while (!(next.likelihood >= likelihood - 1e-12) && length > 1e-6) {
      length /= 2;
      next = likelihoodOf(scatter, moved(values, move, length), step);
    }
    if (!(next.likelihood >= likelihood - 1e-12)) break;
    const gained = next.likelihood - likelihood;
    values = moved(values, move, length);
    ({ likelihood, gradient, information } = next);
    if (gained < 1e-12 && length === 1) break;
  }
  const sd = (distance_m: number) => Math.max(0, sdAt(values, distance_m));
  return {
    values,
    covariance: inverse(information),
    freedom: scatter.reduce((sum, s) => sum + s.freedom, 0),
    hidden: scatter.some((s) => sd(s.distance_m) < HIDDEN * step),
    sd,
  };
}

/**
 * The same noise with no part of it below 0, as a profile can hold it: where one part comes out negative it is 0, and the
 * other is fitted alone.
 */
export function heldAtZero(noise: Noise, scatter: readonly Scatter[], step: number): number[] {
  const [a = 0, b] = noise.values;
  if (b === undefined) return [Math.max(0, a)];
  if (a >= 0 && b >= 0) return [a, b];
  if (b < 0) return [Math.max(0, fitNoise(scatter, step, false).values[0]!), 0];
  // σ = b·d: in units of distance it is constant.
  const scaled = scatter.map((s) => ({ ...s, squares: s.squares / (s.distance_m * s.distance_m) }));
  return [0, Math.max(0, fitNoise(scaled, 0, false).values[0]!)];
}

/** The same noise at all distances. */
function level(scatter: readonly Scatter[], step: number, growing: boolean): number[] {
  const mean = scatter.reduce((sum, s) => sum + s.squares, 0) / scatter.reduce((sum, s) => sum + s.freedom, 0);
  return growing ? [noiseOf(mean, step), 0] : [noiseOf(mean, step)];
}

const sdAt = ([a = 0, b = 0]: readonly number[], d: number): number => a + b * d;

const moved = (values: readonly number[], move: readonly number[], length: number): number[] =>
  values.map((x, i) => x + length * move[i]!);

/** Log-likelihood of the scatter up to a constant, its gradient, and Fisher's information; −∞ where σ is not positive somewhere. */
function likelihoodOf(scatter: readonly Scatter[], values: readonly number[], step: number) {
  const n = values.length;
  let likelihood = 0;
  const gradient = Array.from({ length: n }, () => 0);
  const information = gradient.map(() => gradient.map(() => 0));
  for (const { distance_m, freedom, squares } of scatter) {
    const sd = sdAt(values, distance_m);
    const v = scatterVariance(sd, step);
    if (!(sd > 0) || !(v > 0)) return { likelihood: -Infinity, gradient, information };
    likelihood -= (freedom * Math.log(v) + squares / v) / 2;
    const slope = scatterSlope(sd, step);
    const by = [slope, slope * distance_m];
    for (let i = 0; i < n; i++) {
      gradient[i]! += ((squares / v - freedom) / (2 * v)) * by[i]!;
      for (let j = 0; j < n; j++) information[i]![j]! += (freedom / (2 * v * v)) * by[i]! * by[j]!;
    }
  }
  return { likelihood, gradient, information };
}

/** Standard deviation whose readings scatter with this variance; at least a thousandth of the step. */
function noiseOf(variance: number, step: number): number {
  let low = Math.max(step * 1e-3, 1e-9);
  let high = Math.max(2 * Math.sqrt(variance), low) + step;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (scatterVariance(middle, step) < variance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
