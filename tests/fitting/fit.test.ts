/** What a fit makes of benches with something wrong with them: strays, slips of the tape, readings that stand still. */
import { describe, expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import type { BenchOptions } from '../../src/fitting/bench.js';
import { type Fit, fitBench } from '../../src/fitting/fit.js';
import { readBench } from '../../src/fitting/readings.js';
import { airTemperature } from '../../src/fitting/sound.js';
import { speedOfSound } from '../../src/sensors/ultrasonic/air.js';
import { remarks } from '../../src/cli/fit-words.js';
import { type Truth, benchCsv } from './bench-data.js';

const OPTIONS = { adc_bits: 10, adc_reference_v: 5 } as const;
const fitted = (csv: string, kind: BenchOptions['kind'], more: Partial<BenchOptions> = {}): Fit => {
  const { bench, issues } = readBench(csv, 'b.csv');
  expect(issues).toEqual([]);
  return fitBench(bench!, { ...OPTIONS, kind, ...more })!;
};
const value = (fit: Fit, name: string) => fit.parameters.find((one) => one.name === name)!;

const LINE: Truth = {
  distances_m: [0.2, 0.3, 0.5, 0.8, 1.2, 1.6, 2],
  rows: 40,
  stray_share: 0,
  dropout_share: 0,
  range_m: [0.05, 4],
  reads: (d) => 0.01 + 0.99 * d,
  sd: (d) => 0.002 + 0.003 * d,
  write: (m) => String(Math.max(1, Math.round(1000 * m))),
};
const line = (change: Partial<Truth> = {}, seed = 'line') =>
  benchCsv('true_m,reading_mm', { ...LINE, ...change }, Stream.root(seed));

describe('strays', () => {
  test('a fifth of all readings being strays moves the curve by no more than its error, and they are counted', () => {
    const fit = fitted(line({ stray_share: 0.2, dropout_share: 0.05 }), 'time-of-flight-ranger');
    for (const [name, truth] of [
      ['bias_m', 0.01],
      ['scale', 0.99],
      ['noise_m', 0.002],
      ['noise_per_m', 0.003],
    ] as const) {
      const { value: found, standard_error } = value(fit, name);
      expect(Math.abs(found - truth) / standard_error!, name).toBeLessThan(3);
    }
    expect(value(fit, 'stray_share').low).toBeLessThan(0.2);
    expect(value(fit, 'stray_share').high).toBeGreaterThan(0.2);
    expect(fit.silent).toBeGreaterThan(0);
    expect(fit.rows).toBe(280);
  });

  test('without strays none are found, and the interval begins at 0', () => {
    const fit = fitted(line(), 'time-of-flight-ranger');
    expect(fit.strays).toBe(0);
    expect(value(fit, 'stray_share').value).toBeLessThan(1e-6);
    // Wilson's upper end for 0 of 280: z²/(n + z²), Newcombe 1998, method 3.
    expect(value(fit, 'stray_share').high).toBeCloseTo(3.8414588 / (280 + 3.8414588), 5);
  });

  test('one stray that least squares would follow leaves no trace', () => {
    const clean = fitted(line(), 'time-of-flight-ranger');
    const one = fitted(`${line()}2,100\n`, 'time-of-flight-ranger');
    expect(one.strays).toBe(1);
    expect(Math.abs(value(one, 'scale').value - value(clean, 'scale').value)).toBeLessThan(1e-5);
  });
});

describe('a curve that does not fit', () => {
  test('is not made to: a slip of 3 cm at one distance is told, and widens every interval', () => {
    const straight = fitted(line(), 'time-of-flight-ranger');
    expect(straight.fitted.misfit).toBeLessThan(straight.fitted.misfit_limit);
    const slipped = fitted(line({ reads: (d) => 0.01 + 0.99 * d + (d === 1.2 ? 0.03 : 0) }), 'time-of-flight-ranger');
    expect(slipped.fitted.misfit).toBeGreaterThan(10 * slipped.fitted.misfit_limit);
    expect(value(slipped, 'scale').standard_error!).toBeGreaterThan(5 * value(straight, 'scale').standard_error!);
    expect(value(slipped, 'scale').low).toBeLessThan(0.99);
    expect(value(slipped, 'scale').high).toBeGreaterThan(0.99);
    // Noise is scatter at each distance, and there is no more of that.
    expect(value(slipped, 'noise_m').value).toBeCloseTo(value(straight, 'noise_m').value, 4);
    expect(slipped.strays).toBe(0);
    expect(remarks(slipped).join(' ')).toContain('a slip of the tape');
  });
});

describe('readings that stand still', () => {
  test('noise below the step is 0 with a limit, and the curve is no surer than the step', () => {
    const fit = fitted(
      line({ sd: () => 0, write: (m) => m.toFixed(2) }).replace('reading_mm', 'reading_m'),
      'time-of-flight-ranger',
    );
    expect(fit.hidden).toBe(true);
    for (const name of ['noise_m', 'noise_per_m'])
      expect(value(fit, name)).toMatchObject({ value: 0, low: 0, standard_error: null });
    expect(value(fit, 'noise_m').high).toBeLessThan(0.01);
    expect(value(fit, 'bias_m').standard_error!).toBeGreaterThan(0.001);
    expect(remarks(fit).join(' ')).toContain('which hides how small');
  });
});

describe('sound', () => {
  test('speed in air: ISO 9613-1:1993 (second-hand): 331.286 m/s at 0 °C, 343.2 at 20', () => {
    expect(speedOfSound(0)).toBeCloseTo(331.286, 3);
    expect(speedOfSound(20)).toBe(343.2);
    for (const t of [-20, 0, 37.5]) expect(airTemperature(speedOfSound(t))).toBeCloseTo(t, 9);
  });

  test('a controller that takes 20 °C for granted, at a bench of 5 °C', () => {
    // Echo time there and back, turned into distance at 20 °C: too long by c(20)/c(5).
    const ratio = Math.sqrt(293.15 / 278.15);
    const csv = line({ reads: (d) => d * ratio });
    const fit = fitted(csv, 'ultrasonic-ranger', { temperature_c: 5 });
    const { low, high, standard_error } = value(fit, 'assumed_temperature_c');
    expect(low < 20 && 20 < high).toBe(true);
    expect(standard_error!).toBeLessThan(1.5);
    // Without a thermometer the same readings say nothing of temperature.
    const blind = fitted(csv, 'ultrasonic-ranger');
    expect(blind.parameters.some((one) => one.name === 'assumed_temperature_c')).toBe(false);
    expect(remarks(blind).join(' ')).toContain('--temperature-c');
  });
});

test('the same readings in any order and any unit give the same fit', () => {
  const csv = line({ stray_share: 0.05, dropout_share: 0.05 });
  const [header, ...rows] = csv.trim().split('\n');
  const turned = [header, ...rows.reverse()].join('\n');
  const metres = [
    'true_cm,reading_m',
    ...rows.map((row) => {
      const [d, mm] = row.split(',');
      return `${Number(d) * 100},${mm === '' ? '' : (Number(mm) / 1000).toFixed(3)}`;
    }),
  ].join('\n');
  const numbers = (text: string) =>
    fitted(text, 'time-of-flight-ranger').parameters.flatMap((one) => [one.value, one.low, one.high]);
  const first = numbers(csv);
  for (const other of [numbers(turned), numbers(metres)]) other.forEach((x, i) => expect(x).toBeCloseTo(first[i]!, 8));
});
