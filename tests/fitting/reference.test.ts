/** The fit against another implementation: tests/reference/fit-values.py, by scipy, from the same readings. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { fitBench } from '../../src/fitting/fit.js';
import { readBench } from '../../src/fitting/readings.js';

interface Reference {
  readonly rows: readonly (readonly [number, number])[];
  readonly curve: readonly number[];
  readonly curve_errors: readonly number[];
  readonly correlations: readonly (readonly number[])[];
  readonly noise: readonly number[];
  readonly noise_errors: readonly number[];
}
const values = JSON.parse(readFileSync('tests/reference/fit-values.json', 'utf8')) as Record<string, Reference>;

test.each([
  ['triangulation', 'triangulation-ranger', 'adc_counts'],
  ['straight', 'time-of-flight-ranger', 'reading_mm'],
] as const)('%s: parameters, standard errors, correlations and noise as scipy gives them', (name, kind, column) => {
  const wanted = values[name]!;
  const csv = `true_m,${column}\n${wanted.rows.map((row) => row.join(',')).join('\n')}\n`;
  const { bench } = readBench(csv, 'bench.csv');
  const fit = fitBench(bench!, { kind, adc_bits: 10, adc_reference_v: 5 })!;
  const { parameters, covariance } = fit.fitted;
  const noise = fit.parameters.filter((one) => one.name.startsWith('noise'));

  const close = (value: number, expected: number, error: number) =>
    expect(Math.abs(value - expected) / error, `${value} for ${expected}`).toBeLessThan(1e-4);
  wanted.curve.forEach((value, i) => {
    close(parameters[i]!, value, wanted.curve_errors[i]!);
    close(Math.sqrt(covariance[i]![i]!), wanted.curve_errors[i]!, wanted.curve_errors[i]!);
    wanted.correlations[i]!.forEach((r, j) => expect(fit.correlations[0]!.matrix[i]![j]!).toBeCloseTo(r, 5));
  });
  wanted.noise.forEach((value, i) => {
    close(noise[i]!.value, value, wanted.noise_errors[i]!);
    close(noise[i]!.standard_error!, wanted.noise_errors[i]!, wanted.noise_errors[i]!);
  });
  // Nothing here is a stray, and nothing was taken for one.
  expect(fit.separation.strays).toBeLessThan(1e-6);
});
