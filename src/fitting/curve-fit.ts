/**
 * A curve through the means of the distances, each weighted by one over its variance, with covariance.
 *
 * The library gives parameters only. Covariance is (JᵀWJ)⁻¹·s², s² the weighted mean square of single readings about
 * the curve. A fit of means has the same parameters as one of all readings and costs a fraction.
 */
import { chiSquareQuantile } from '../engine/distribution-functions.js';
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import type { Curve, Point } from './curves.js';
import type { Noise, Scatter } from './noise.js';
import { scatterVariance, sharedVariance } from './quantised.js';
import { type Matrix, inverse } from './small-matrix.js';
import type { Separated } from './strays.js';

export interface CurveFit {
  readonly parameters: readonly number[];
  readonly covariance: Matrix;
  /** Degrees of freedom behind the covariance. */
  readonly freedom: number;
  /** How much more the means miss the curve by than noise explains: about 1 where the curve fits. */
  readonly misfit: number;
  /** A misfit above this is no chance: one in a thousand. Then the covariance is larger by it. */
  readonly misfit_limit: number;
  readonly points: readonly Point[];
}

/** Null when the data can't tell the parameters apart. */
export function fitCurve(
  curve: Curve,
  groups: readonly Separated[],
  scatter: readonly Scatter[],
  noise: Noise,
  step: number,
): CurveFit | null {
  let rounding = 0;
  const points = groups.map(({ group, centre, size }): Point => {
    const sd = noise.sd(group.distance_m);
    // Constant readings, written finely, still differ from a curve by their last digit.
    const single = Math.max(scatterVariance(sd, step), 1e-18);
    const shared = sharedVariance(sd, step);
    rounding = Math.max(rounding, (size * shared) / single);
    return { distance_m: group.distance_m, value: centre, weight: 1 / (single / size + shared) };
  });
  const parameters = solve(curve, points);
  const information = parameters && informationOf(curve, points, parameters);
  const plain = information && inverse(information);
  if (!parameters || !plain) return null;

  const rows = scatter.reduce((sum, s) => sum + s.freedom + 1, 0);
  const missed = points.map((p) => p.value - curve.at(parameters, p.distance_m));
  const between = missed.reduce((sum, miss, i) => sum + points[i]!.weight * miss * miss, 0);
  const within = scatter.reduce((sum, s, i) => sum + (points[i]!.weight / groups[i]!.size) * s.squares, 0);
  const spare = points.length - parameters.length;
  const misfit = between / spare;
  const misfit_limit = chiSquareQuantile(0.999, spare) / spare;
  // Where rounding is shared by all readings of a distance, single readings about the curve say too little: then only
  // the distances count as independent.
  const coarse = rounding > 0.05;
  const wide = misfit > misfit_limit;
  const single = coarse ? 1 : (between + within) / (rows - parameters.length);
  const s2 = wide || coarse ? Math.max(misfit, single) : single;
  return {
    parameters,
    covariance: plain.map((row) => row.map((x) => x * s2)),
    freedom: wide || coarse ? spare : rows - parameters.length,
    misfit,
    misfit_limit,
    points,
  };
}

/**
 * Weights are put into the curve instead of given to the library, whose weighted error goes by their reciprocals; and
 * it is called again until a full Gauss–Newton step would move nothing.
 */
function solve(curve: Curve, points: readonly Point[]): number[] | null {
  const root = points.map((p) => Math.sqrt(p.weight));
  const data = { x: points.map((_, i) => i), y: points.map((p, i) => p.value * root[i]!) };
  let parameters = curve.start(points);
  for (let again = 0; again < 20; again++) {
    if (!parameters.every(Number.isFinite)) return null;
    if (unsettled(curve, points, parameters) < 1e-12) return parameters;
    parameters = levenbergMarquardt(data, (p) => (i) => root[i]! * curve.at(p, points[i]!.distance_m), {
      initialValues: parameters,
      minValues: curve.lowest(points),
      jacobianFunction: (p) => (i) => curve.slopes(p, points[i]!.distance_m).map((x) => x * root[i]!),
      maxValues: parameters.map(() => Infinity),
      errorTolerance: 1e-12,
      damping: 1e-3,
    }).parameterValues;
  }
  // Readings that don't scatter have so much weight that the last digits never settle.
  return unsettled(curve, points, parameters) < 1e-4 ? parameters : null;
}

/** Square of the next step, in standard errors. */
function unsettled(curve: Curve, points: readonly Point[], parameters: readonly number[]): number {
  const covariance = inverse(informationOf(curve, points, parameters));
  if (covariance === null) return Infinity;
  const pull = parameters.map((_, j) =>
    points.reduce((sum, p) => {
      const miss = p.value - curve.at(parameters, p.distance_m);
      return sum + p.weight * miss * curve.slopes(parameters, p.distance_m)[j]!;
    }, 0),
  );
  return covariance.reduce((sum, row, i) => sum + pull[i]! * row.reduce((s, x, j) => s + x * pull[j]!, 0), 0);
}

function informationOf(curve: Curve, points: readonly Point[], parameters: readonly number[]): number[][] {
  const slopes = points.map((p) => curve.slopes(parameters, p.distance_m));
  return parameters.map((_, i) =>
    parameters.map((__, j) => points.reduce((sum, p, k) => sum + p.weight * slopes[k]![i]! * slopes[k]![j]!, 0)),
  );
}
