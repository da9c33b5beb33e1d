/** What is written to a profile: a sensor's keys, rounded without harm, that a scenario can take as they are. */
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { Stream } from '../../src/engine/stream.js';
import type { BenchOptions } from '../../src/fitting/bench.js';
import { fitBench } from '../../src/fitting/fit.js';
import { profileOf } from '../../src/fitting/profile.js';
import { readBench } from '../../src/fitting/readings.js';
import { decimalsOf, supported } from '../../src/fitting/rounding.js';
import { sensorSchema } from '../../src/sensors/schema.js';
import { type Truth, benchCsv } from './bench-data.js';

const BASE = { rows: 30, stray_share: 0.03, dropout_share: 0.02, range_m: [0.1, 0.8] } as const;
const curve = (d: number) => 0.05 + 0.24 / (d + 0.012);
const VOLTS: Truth = {
  ...BASE,
  distances_m: [0.1, 0.12, 0.15, 0.2, 0.3, 0.45, 0.6, 0.8],
  reads: curve,
  sd: () => 0.006,
  write: (v) => String(Math.floor((v / 5) * 1024)),
};
const LINE: Truth = {
  ...BASE,
  distances_m: [0.1, 0.2, 0.4, 0.8, 1.6],
  reads: (d) => 0.004 + 0.985 * d,
  sd: (d) => 0.002 + 0.002 * d,
  write: (m) => String(Math.round(m * 1000)),
};

function made(header: string, truth: Truth, options: Partial<BenchOptions> & Pick<BenchOptions, 'kind'>) {
  const settings = { adc_bits: 10, adc_reference_v: 5, ...options };
  const fit = fitBench(readBench(benchCsv(header, truth, Stream.root('profile')), 'b.csv').bench!, settings)!;
  const profile = profileOf(fit, settings, header.includes('adc'));
  return { fit, ...profile, keys: parse(profile.text) as Record<string, number | string> };
}

describe('keys', () => {
  test.each([
    [
      'true_m,adc_counts',
      VOLTS,
      { kind: 'triangulation-ranger' },
      ['adc_bits', 'adc_reference_v', 'gain_v_m', 'offset_m', 'base_v', 'noise_v'],
    ],
    ['true_m,reading_mm', LINE, { kind: 'ultrasonic-ranger' }, ['bias_m', 'noise_m', 'noise_per_m']],
    [
      'true_m,reading_mm',
      LINE,
      { kind: 'ultrasonic-ranger', temperature_c: 21 },
      ['bias_m', 'assumed_temperature_c', 'noise_m', 'noise_per_m'],
    ],
    ['true_m,reading_mm', LINE, { kind: 'time-of-flight-ranger' }, ['bias_m', 'noise_m', 'noise_per_m']],
  ] as const)(
    '%s, %o: what was fitted and nothing else, and a sensor can be made of it',
    (header, truth, options, names) => {
      const { keys, issues, text } = made(header, truth, options);
      expect(issues).toEqual([]);
      expect(Object.keys(keys)).toEqual(['kind', ...names, 'stray_share', 'dropout_share']);
      const sensor = sensorSchema.parse(keys);
      for (const name of names) expect((sensor as unknown as Record<string, unknown>)[name]).toBe(keys[name]);
      expect(text).toMatch(/± \d/);
      expect(text).toContain(`${truth.distances_m.length * truth.rows} rows`);
      expect(text).not.toMatch(/20\d\d-|b\.csv/);
    },
  );

  test('a value that no sensor can have is told, not written as if it could', () => {
    const { issues } = made('true_m,reading_mm', { ...LINE, reads: (d) => 0.7 + d }, { kind: 'time-of-flight-ranger' });
    expect(issues).toMatchObject([{ key: 'bias_m', expected: 'at most 0.5' }]);
  });
});

test('readings that do not follow the distance are told', () => {
  const { issues } = made('true_m,reading_mm', { ...LINE, reads: (d) => 1.2 - 0.1 * d }, { kind: 'ultrasonic-ranger' });
  expect(issues.map((one) => one.key)).toContain('scale');
});

describe('rounding', () => {
  test('two digits of the standard error, never a negative zero', () => {
    expect([0.0123, 0.5, 12, 0.00099].map(decimalsOf)).toEqual([3, 2, 0, 5]);
    expect([supported(1.23456, 0.0123), supported(-0.00001, 0.01), supported(150.4, 12)]).toEqual([
      '1.235',
      '0',
      '150',
    ]);
  });

  test('the curve of a profile is the fitted curve, though its parameters stand for one another', () => {
    const { fit, keys } = made('true_m,adc_counts', VOLTS, { kind: 'triangulation-ranger' });
    const { parameters, covariance } = fit.fitted;
    for (const d of VOLTS.distances_m) {
      const written = Number(keys['base_v']) + Number(keys['gain_v_m']) / (d + Number(keys['offset_m']));
      const slopes = fit.curve.slopes(parameters, d);
      const error = Math.sqrt(
        slopes.reduce((sum, x, i) => sum + x * slopes.reduce((s, y, j) => s + y * covariance[i]![j]!, 0), 0),
      );
      expect(Math.abs(written - fit.curve.at(parameters, d)) / error, `${d} m`).toBeLessThan(0.25);
      expect(Math.abs(written - curve(d)) / error).toBeLessThan(4);
    }
  });
});
