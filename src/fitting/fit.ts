/** From readings at true distances to a ranger's parameters with standard errors: strays first, then noise, then the curve. */
import { type Bench, type BenchOptions, groupsOf, unitOf } from './bench.js';
import { type CurveFit, fitCurve } from './curve-fit.js';
import { type Curve, curveOf } from './curves.js';
import { heldAtZero } from './noise.js';
import { noiseParameters, share } from './noise-parameters.js';
import type { Parameter } from './parameter.js';
import { namedParameters } from './parameters.js';
import { correlations } from './small-matrix.js';
import { evenInDistance, rangeOf } from './stray-density.js';
import { type Separation, separate } from './strays.js';

export interface Fit {
  readonly kind: BenchOptions['kind'];
  readonly parameters: readonly Parameter[];
  /** Correlations of the curve's parameters, and of the two parts of noise. */
  readonly correlations: readonly {
    readonly names: readonly string[];
    readonly matrix: readonly (readonly number[])[];
  }[];
  readonly rows: number;
  readonly distances_m: readonly number[];
  /** Readings more likely strays than not; rows without echo. */
  readonly strays: number;
  readonly silent: number;
  readonly curve: Curve;
  readonly fitted: CurveFit;
  readonly separation: Separation;
  /** Step from one possible reading to the next, in the unit of the fit, `m` or `V`. */
  readonly step: number;
  readonly unit: 'm' | 'V';
  /** Whether the step hides the noise. */
  readonly hidden: boolean;
}

/**
 * The whole fit.
 *
 * @param bench checked by {@link dataIssues}: enough distances, and readings in the unit they are said to have
 * @returns null when the curve's parameters can't be told apart
 */
export function fitBench(bench: Bench, options: BenchOptions): Fit | null {
  const groups = groupsOf(bench, options);
  const { step } = unitOf(bench, options);
  const curve = curveOf(options.kind);
  const volts = options.kind === 'triangulation-ranger';
  const range = rangeOf(groups);
  let density: (value: number) => number = () => 1 / range;
  let separation = separate(groups, { step, growing: !volts, density });
  const through = (s: Separation) => fitCurve(curve, s.groups, s.scatter, s.noise, step);
  let fitted = through(separation);
  // Strays lie evenly in distance. Where a reading isn't one, their density follows from the curve: so a second round.
  for (let again = 0; volts && fitted !== null && again < 2; again++) {
    density = evenInDistance(groups, fitted.parameters);
    separation = separate(groups, { step, growing: false, density });
    fitted = through(separation);
  }
  if (fitted === null) return null;
  return describe(bench, options, { curve, fitted, separation, step });
}

function describe(
  bench: Bench,
  options: BenchOptions,
  found: { curve: Curve; fitted: CurveFit; separation: Separation; step: number },
): Fit {
  const { curve, fitted, separation, step } = found;
  const { noise, scatter } = separation;
  const volts = options.kind === 'triangulation-ranger';
  const silent = bench.rows.filter((row) => row.reading === null).length;
  const names = volts ? ['noise_v'] : ['noise_m', 'noise_per_m'];
  // An ultrasonic ranger's noise is on the echo: metres of true distance, before anything is turned into a reading.
  const perMetre = options.kind === 'ultrasonic-ranger' ? 1 / Math.abs(fitted.parameters[1]!) : 1;
  const told = [{ names: curve.names, matrix: correlations(fitted.covariance) }];
  if (noise.covariance !== null && names.length > 1) told.push({ names, matrix: correlations(noise.covariance) });
  return {
    kind: options.kind,
    parameters: [
      ...namedParameters(fitted, bench, options),
      ...noiseParameters(separation, names, step, heldAtZero(noise, scatter, step), perMetre),
      share('stray_share', separation.strays, bench.rows.length - silent),
      share('dropout_share', silent, bench.rows.length),
    ],
    correlations: told,
    rows: bench.rows.length,
    distances_m: separation.groups.map((s) => s.group.distance_m),
    strays: separation.groups.reduce((sum, s) => sum + s.kept.filter((k) => k < 0.5).length, 0),
    silent,
    ...found,
    unit: volts ? 'V' : 'm',
    hidden: noise.hidden,
  };
}
