/** Differences between designs, with and without the same crowds. */
import { sampleStandardDeviation } from 'simple-statistics';
import { expect, test } from 'vitest';
import { contrast, meanSample, sampleOf } from '../../../src/study/judge/samples.js';

const OPTIONS = { options: { scale: 1, nothing: '' } };
const sample = (values: readonly number[]) =>
  sampleOf(
    values.map((events) => ({ events, exposure: 1 })),
    OPTIONS,
  )!;

test('with equal exposures the jackknife is the ordinary error of a mean of differences', () => {
  const [a, b] = [
    [3, 5, 4, 8],
    [1, 4, 4, 5],
  ] as const;
  const { value, error, freedom } = contrast(sample(a), sample(b), true);
  expect(value).toBeCloseTo(1.5, 12);
  expect(error).toBeCloseTo(sampleStandardDeviation(a.map((one, i) => one - b[i]!)) / 2, 12);
  expect(freedom).toBe(3);
});

test("unpaired, error and degrees of freedom are Welch's", () => {
  // Welch's formula by hand: variances of means 4.6667/4 and 3/4; freedom (va + vb)² / (va²/3 + vb²/3).
  const { error, freedom } = contrast(sample([3, 5, 4, 8]), sample([1, 4, 4, 5]), false);
  const [va, vb] = [14 / 3 / 4, 3 / 4];
  expect(error).toBeCloseTo(Math.sqrt(va + vb), 12);
  expect(freedom).toBeCloseTo((va + vb) ** 2 / (va ** 2 / 3 + vb ** 2 / 3), 12);
});

test('a mean of samples is left out replicate by replicate', () => {
  const mean = meanSample([sample([1, 2, 3]), sample([3, 4, 8])]);
  expect(mean).toEqual(sample([2, 3, 5.5]));
});

test('where a replicate holds all exposure there is no sample', () => {
  expect(
    sampleOf(
      [
        { events: 1, exposure: 5 },
        { events: 0, exposure: 0 },
      ],
      OPTIONS,
    ),
  ).toBe(null);
});

test("Welch's test of two soporifics, as R has it", () => {
  // R 4.2.2: t.test(extra ~ group, data = sleep): t = -1.860813, df = 17.776474, p-value = 0.07939414.
  const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
  const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
  const { value, error, freedom } = contrast(sample(first), sample(second), false);
  expect(value / error).toBeCloseTo(-1.860813, 6);
  expect(freedom).toBeCloseTo(17.776474, 5);
});
