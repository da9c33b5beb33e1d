/** What a reading is at a distance: a straight line for rangers that give distance, a hyperbola for triangulation. */
import type { FitKind } from './bench.js';

/** A curve f(d; parameters), d in metres, f in metres or volts. */
export interface Curve {
  readonly names: readonly string[];
  at(parameters: readonly number[], distance_m: number): number;
  /** Derivatives of f by each parameter. */
  slopes(parameters: readonly number[], distance_m: number): number[];
  /** Somewhere near, from few points with weights. */
  start(points: readonly Point[]): number[];
  /** Lowest values at which the curve has no pole among the distances. */
  lowest(points: readonly Point[]): number[];
}

export interface Point {
  readonly distance_m: number;
  readonly value: number;
  /** One over the variance of the value. */
  readonly weight: number;
}

export const LINE: Curve = {
  names: ['offset', 'scale'],
  at: ([offset, scale], d) => offset! + scale! * d,
  slopes: (_, d) => [1, d],
  start: (points) => lineThrough(points, (d) => d),
  lowest: () => [-Infinity, -Infinity],
};

/** volts = base + gain / (distance + offset) */
export const HYPERBOLA: Curve = {
  names: ['gain_v_m', 'offset_m', 'base_v'],
  at: ([gain, offset, base], d) => base! + gain! / (d + offset!),
  slopes: ([gain, offset], d) => [1 / (d + offset!), -gain! / ((d + offset!) * (d + offset!)), 1],
  start: (points) => {
    // For a given offset the rest is a straight line in 1/(d + offset): the offset alone is searched.
    const nearest = Math.min(...points.map((p) => p.distance_m));
    let best = [0, 0, 0];
    let least = Infinity;
    for (let i = 0; i <= 80; i++) {
      const offset = -0.9 * nearest + (i / 80) * (i / 80) * 1.5;
      const [base = 0, gain = 0] = lineThrough(points, (d) => 1 / (d + offset));
      const off = points.reduce((sum, p) => {
        const miss = p.value - base - gain / (p.distance_m + offset);
        return sum + p.weight * miss * miss;
      }, 0);
      if (off < least) [least, best] = [off, [gain, offset, base]];
    }
    return best;
  },
  lowest: (points) => [-Infinity, -0.99 * Math.min(...points.map((p) => p.distance_m)), -Infinity],
};

export const curveOf = (kind: FitKind): Curve => (kind === 'triangulation-ranger' ? HYPERBOLA : LINE);

/** Weighted least squares of value = u + w·x(d): [u, w]. */
function lineThrough(points: readonly Point[], x: (d: number) => number): number[] {
  const all = points.reduce((sum, p) => sum + p.weight, 0);
  const mx = points.reduce((sum, p) => sum + p.weight * x(p.distance_m), 0) / all;
  const my = points.reduce((sum, p) => sum + p.weight * p.value, 0) / all;
  const xx = points.reduce((sum, p) => sum + p.weight * (x(p.distance_m) - mx) * (x(p.distance_m) - mx), 0);
  const xy = points.reduce((sum, p) => sum + p.weight * (x(p.distance_m) - mx) * (p.value - my), 0);
  return [my - (xy / xx) * mx, xy / xx];
}
