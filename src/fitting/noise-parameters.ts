/** Noise and shares as parameters with intervals. */
import { tQuantile } from '../engine/distribution-functions.js';
import { wilsonEstimate } from '../score/wilson.js';
import { HIDDEN } from './noise.js';
import type { Parameter } from './parameter.js';
import type { Separation } from './strays.js';

/** Intervals for parameters of noise: of its logarithm where it is one number, which is closer to normal. */
export function noiseParameters(
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
export function share(name: string, count: number, rows: number): Parameter {
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
