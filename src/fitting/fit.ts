/** From readings at true distances to a ranger's parameters with standard errors: strays first, then noise, then the curve. */
import { tQuantile } from '../engine/arithmetic.js';
import { wilsonEstimate } from '../score/wilson.js';
import { type Bench, type BenchOptions, type Group, groupsOf, unitOf } from './bench.js';
import { type CurveFit, fitCurve } from './curve-fit.js';
import { type Curve, curveOf } from './curves.js';
import { HIDDEN, heldAtZero } from './noise.js';
import { namedParameters } from './parameters.js';
import { correlations } from './small-matrix.js';
import { type Separation, separate } from './strays.js';

export interface Parameter {
  /** A key of the sensor where `key` is true; otherwise a name of this report only. */
  readonly name: string;
  readonly key: boolean;
  readonly unit: string;
  /** What a profile gets; never outside the interval's meaning, so noise and shares are at least 0. */
  readonly value: number;
  /** Null where the data can't tell. */
  readonly standard_error: number | null;
  /** The standard error if all parameters that it is tangled up with were known: what rounding must stay below. */
  readonly alone: number | null;
  /** 95 % interval. */
  readonly low: number;
  readonly high: number;
  /** What has to be said about it, in a sentence; empty when nothing has. */
  readonly note: string;
}

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
  const perMetre = options.kind === 'ultrasonic-ranger' ? 1 / fitted.parameters[1]! : 1;
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

/** Intervals for parameters of noise: of its logarithm where it is one number, which is closer to normal. */
function noiseParameters(
  { noise, groups }: Separation,
  names: readonly string[],
  step: number,
  held: readonly number[],
  factor: number,
): Parameter[] {
  const t = tQuantile(0.975, noise.freedom);
  const furthest = groups.at(-1)!.group.distance_m;
  return names.map((name, i) => {
    const free = factor * noise.values[i]!;
    const value = factor * held[i]!;
    const known = noise.covariance === null ? null : factor * Math.sqrt(noise.covariance[i]![i]!);
    const se = known ?? Infinity;
    const ratio = names.length === 1 && value > 0 ? Math.exp((t * se) / value) : null;
    const most = (factor * HIDDEN * step) / (name === 'noise_per_m' ? furthest : 1);
    const low = ratio === null ? Math.max(0, free - t * se) : value / ratio;
    const high = Math.max(0, ratio === null ? free + t * se : value * ratio);
    const note = noise.hidden
      ? 'Noise is small against the step of the readings, which hides how small.'
      : free < 0
        ? 'It came out below 0 and was held at 0; the interval is that of the free fit.'
        : '';
    return {
      name,
      key: true,
      unit: { noise_v: 'V', noise_m: 'm', noise_per_m: 'm/m' }[name]!,
      value: noise.hidden && value < most / 100 ? 0 : value,
      standard_error: noise.hidden ? null : known,
      alone: noise.hidden ? null : known,
      low: noise.hidden ? 0 : low,
      high: noise.hidden ? Math.max(most, Number.isFinite(high) ? high : 0) : high,
      note,
    };
  });
}

/** Strays are a share of the readings with an echo, drop-outs of all. */
function share(name: string, count: number, rows: number): Parameter {
  const { value, low, high } = wilsonEstimate(count, rows);
  const p = value ?? 0;
  const error = Math.sqrt((p * (1 - p)) / rows);
  return {
    name,
    key: true,
    unit: 'share',
    value: p,
    standard_error: error,
    alone: error,
    low: low ?? 0,
    high: high ?? 1,
    note: '',
  };
}

/** Length of what readings span: strays are taken to lie evenly in it. */
function rangeOf(groups: readonly Group[]): number {
  let [least, most] = [Infinity, -Infinity];
  for (const { values } of groups) for (const x of values) [least, most] = [Math.min(least, x), Math.max(most, x)];
  return Math.max(most - least, 1e-9);
}

/** Density of voltages of strays that lie evenly in distance, between the nearest and furthest that readings stand for. */
function evenInDistance(groups: readonly Group[], parameters: readonly number[]): (volts: number) => number {
  const [gain = 0, offset = 0, base = 0] = parameters;
  const furthest = groups.at(-1)!.distance_m;
  // Near the base any voltage stands for any distance; not all of them are in the range.
  const limit = gain / (1.5 * furthest + offset);
  const distance = (volts: number) => gain / Math.max(volts - base, limit) - offset;
  const all = groups.flatMap((group) => group.values.map(distance));
  let [least, most] = [Infinity, -Infinity];
  for (const d of all) [least, most] = [Math.min(least, d), Math.max(most, d)];
  const range = Math.max(most - least, 1e-9);
  return (volts) => {
    const d = Math.max(distance(volts), least);
    return ((d + offset) * (d + offset)) / Math.abs(gain) / range;
  };
}
