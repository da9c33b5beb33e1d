import { describe, expect, test } from 'vitest';
import { ratioEstimate } from '../../src/score/estimates.js';
import { spreadEstimate } from '../../src/score/spread.js';

const per100 = { scale: 100, nothing: 'no crossings' } as const;

describe('a ratio over replicates', () => {
  test('is the pooled ratio with a jackknife-t interval, worked by hand', () => {
    const estimate = ratioEstimate([1, 0, 2, 1], [10, 12, 8, 10], per100);
    // Left out in turn: 3/30, 4/28, 2/32, 3/30, in hundredths 10, 14.285714, 6.25, 10; mean 10.133929.
    // Squares off the mean 0.017937 + 17.237324 + 15.084901 + 0.017937 = 32.358099; × 3/4, root: 4.926310.
    // t(0.975; 3 degrees) = 3.182446, from memory; half-width 15.677717.
    expect(estimate.value).toBeCloseTo(10, 12);
    expect(estimate.high).toBeCloseTo(25.6777, 4);
    expect(estimate).toMatchObject({ low: 0, method: 'jackknife-t', n: 40 });
  });

  test('keeps a low end below 0 when it may be negative', () => {
    const estimate = ratioEstimate([1, 0, 2, 1], [10, 12, 8, 10], { ...per100, signed: true });
    expect(estimate.low).toBeCloseTo(-5.6777, 4);
  });

  test('without any event has 0 to the exact Poisson bound, marked optimistic, even for one replicate', () => {
    for (const exposures of [[1000], [400, 600]]) {
      const estimate = ratioEstimate(
        exposures.map(() => 0),
        exposures,
        per100,
      );
      expect(estimate).toMatchObject({ value: 0, low: 0, method: 'poisson-zero', n: 1000 });
      expect(estimate.high).toBeCloseTo(0.368888, 6);
      expect(estimate.reason).toMatch(/optimistic/);
    }
  });

  test('of one replicate has no interval, and says so', () => {
    expect(ratioEstimate([3], [50], per100)).toEqual({
      value: 6,
      low: null,
      high: null,
      method: 'none',
      n: 50,
      reason: 'an interval needs at least two replicates',
    });
  });

  test('of nothing is null, and says so', () => {
    const estimate = ratioEstimate([2, 1], [0, 0], per100);
    expect(estimate).toEqual({ value: null, low: null, high: null, method: 'none', n: 0, reason: 'no crossings' });
  });

  test('that rests on a single replicate has no interval; an empty replicate beside two others does no harm', () => {
    expect(ratioEstimate([3, 0], [50, 0], per100)).toMatchObject({ value: 6, low: null, method: 'none' });
    expect(ratioEstimate([3, 2, 0], [50, 50, 0], per100)).toMatchObject({ value: 5, method: 'jackknife-t' });
  });

  test('that is the same in every replicate gets the exact limits of a Poisson count', () => {
    // Garwood 1936: 10 events, 4.80 to 18.39 (published, to two places; eight digits by R's poisson.test).
    const estimate = ratioEstimate([5, 5], [50, 50], { nothing: 'no visits', scale: 100 });
    expect(estimate).toMatchObject({ value: 10, method: 'poisson-exact' });
    expect(estimate.low).toBeCloseTo(4.7953887, 6);
    expect(estimate.high).toBeCloseTo(18.39035604, 6);
    expect(estimate.reason).toMatch(/independent/);
  });

  test('of time that is the same in every replicate has an interval without width, marked', () => {
    const estimate = ratioEstimate([1, 1, 1], [7, 7, 7], { nothing: 'no time', max: 1, counted: false });
    expect(estimate.low).toBe(estimate.high);
    expect(estimate.reason).toMatch(/no width/);
  });

  test('that is a share stays within 1', () => {
    expect(ratioEstimate([9, 5], [10, 10], { nothing: 'no time', max: 1, counted: false }).high).toBe(1);
  });
});

describe('spread of drift', () => {
  const windows = (...errors: readonly number[]) => ({
    n: errors.length,
    sum: errors.reduce((sum, e) => sum + e, 0),
    sum_sq: errors.reduce((sum, e) => sum + e * e, 0),
  });

  test('is the sample standard deviation over the windows of all replicates', () => {
    // 2, 4, 4, 4, 5, 5, 7, 9: mean 5, squares 32, so sqrt(32/7).
    const estimate = spreadEstimate([windows(2, 4, 4), windows(4, 5, 5), windows(7, 9)]);
    expect(estimate.value).toBeCloseTo(Math.sqrt(32 / 7), 12);
    expect(estimate).toMatchObject({ method: 'jackknife-t', n: 8 });
    expect(estimate.low).toBeLessThan(estimate.value!);
  });

  test('needs two windows for a value, and two without any one replicate for an interval', () => {
    expect(spreadEstimate([windows(1), windows()])).toMatchObject({ value: null, n: 1 });
    expect(spreadEstimate([windows(1, 3)])).toMatchObject({ value: Math.SQRT2, low: null, n: 2 });
    expect(spreadEstimate([windows(1), windows(3)])).toMatchObject({ value: Math.SQRT2, low: null, n: 2 });
    expect(spreadEstimate([windows(1), windows(3), windows(2)]).method).toBe('jackknife-t');
  });
});
