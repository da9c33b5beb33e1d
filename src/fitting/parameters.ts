/** What the fitted curve means in keys of a sensor: the voltage curve as it is; of a straight line offset, scale, and sound. */
import { tQuantile } from '../engine/distribution-functions.js';
import { speedOfSound } from '../sensors/ultrasonic/air.js';
import { type Bench, type BenchOptions, NOMINAL_SPEED_MPS } from './bench.js';
import type { CurveFit } from './curve-fit.js';
import type { Parameter } from './parameter.js';
import { inverse } from './small-matrix.js';
import { airTemperature, temperatureSlope } from './sound.js';

interface Named {
  readonly name: string;
  readonly key: boolean;
  readonly unit: string;
  readonly value: number;
  /** Derivatives of the value by the curve's parameters. */
  readonly by: readonly number[];
  readonly note?: string;
}

export function namedParameters(fit: CurveFit, bench: Bench, options: BenchOptions): Parameter[] {
  const t = tQuantile(0.975, fit.freedom);
  const precision = inverse(fit.covariance);
  return meanings(fit.parameters, bench, options).map(({ by, note = '', ...named }) => {
    const variance = by.reduce((sum, x, i) => sum + x * by.reduce((s, y, j) => s + y * fit.covariance[i]![j]!, 0), 0);
    const error = Math.sqrt(variance);
    const own = by.findIndex((x) => x !== 0);
    const alone = precision === null ? error : Math.abs(by[own]!) / Math.sqrt(precision[own]![own]!);
    return {
      ...named,
      standard_error: error,
      alone: Math.min(error, alone),
      low: named.value - t * error,
      high: named.value + t * error,
      note,
    };
  });
}

function meanings(parameters: readonly number[], bench: Bench, options: BenchOptions): Named[] {
  const [first = 0, second = 0, third = 0] = parameters;
  if (options.kind === 'triangulation-ranger')
    return [
      { name: 'gain_v_m', key: true, unit: 'V·m', value: first, by: [1, 0, 0] },
      { name: 'offset_m', key: true, unit: 'm', value: second, by: [0, 1, 0] },
      { name: 'base_v', key: true, unit: 'V', value: third, by: [0, 0, 1] },
    ];
  if (bench.reads === 'echo_us') return ofEchoTimes(first, second, options);
  const bias: Named = { name: 'bias_m', key: true, unit: 'm', value: first, by: [1, 0] };
  const scale: Named = { name: 'scale', key: false, unit: 'm/m', value: second, by: [0, 1] };
  if (options.kind === 'time-of-flight-ranger')
    return [bias, { ...scale, note: 'Metres read per true metre. No key holds it: a profile reads true to scale.' }];
  if (options.temperature_c === undefined)
    return [
      bias,
      {
        ...scale,
        note: "Metres read per true metre: speed of sound that the controller takes for granted over the bench's. With --temperature-c it becomes assumed_temperature_c; without it that key is left out.",
      },
    ];
  const speed = speedOfSound(options.temperature_c);
  return [bias, scale, assumed(second * speed, [0, temperatureSlope(second * speed) * speed])];
}

/** Echo times were turned into distance at a nominal speed: time = t0 + 2d/c, so scale = nominal/c. */
function ofEchoTimes(offset: number, scale: number, options: BenchOptions): Named[] {
  const speed = NOMINAL_SPEED_MPS / scale;
  const by = -speed / scale;
  const air = options.temperature_c;
  const expected =
    air === undefined
      ? ''
      : ` Air of ${air} °C would give ${speedOfSound(air).toFixed(1)} m/s; a difference is the timer's, the tape's, or the thermometer's.`;
  return [
    { name: 'bias_m', key: true, unit: 'm', value: offset / scale, by: [1 / scale, -offset / (scale * scale)] },
    {
      name: 'speed_of_sound_mps',
      key: false,
      unit: 'm/s',
      value: speed,
      by: [0, by],
      note: `No key holds it; assumed_temperature_c says the same.${expected}`,
    },
    assumed(speed, [0, temperatureSlope(speed) * by]),
  ];
}

function assumed(speed: number, by: readonly number[]): Named {
  return { name: 'assumed_temperature_c', key: true, unit: '°C', value: airTemperature(speed), by };
}
