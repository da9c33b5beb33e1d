/** Intervals against published worked examples, closed forms, and their own promise of coverage. */
import { describe, expect, test } from 'vitest';
import { tQuantile } from '../../src/engine/distribution-functions.js';
import { Stream } from '../../src/engine/stream.js';
import { ratioEstimate } from '../../src/score/estimates.js';
import { jackknifeError } from '../../src/score/jackknife.js';
import { wilsonEstimate } from '../../src/score/wilson.js';

describe("Wilson's score interval", () => {
  // R. G. Newcombe, "Two-sided confidence intervals for the single proportion: comparison of seven methods",
  // Statistics in Medicine 17, 1998, 857–872, Table I, method 3: four decimals as published.
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("%i of %i, Newcombe's example", (events, trials, low, high) => {
    const estimate = wilsonEstimate(events, trials);
    expect(estimate.low).toBeCloseTo(low, 4);
    expect(estimate.high).toBeCloseTo(high, 4);
  });

  // Computed with scipy 1.10.1 (binomtest.proportion_ci, method wilson) and R 4.2.2 (prop.test without correction).
  test.each([
    [95, 100, 0.88824953, 0.97845632],
    [100, 100, 0.9630065, 1],
    [980, 1000, 0.96930999, 0.98701632],
  ])('%i of %i, two statistics packages', (events, trials, low, high) => {
    const estimate = wilsonEstimate(events, trials);
    expect(estimate.low).toBeCloseTo(low, 8);
    expect(estimate.high).toBeCloseTo(high, 8);
  });
});

test('no event has the upper bound of Garwood', () => {
  // F. Garwood, "Fiducial limits for the Poisson distribution", Biometrika 28, 1936, 437–442: half the 97.5 % quantile
  // of chi-square with 2 degrees of freedom; 3.68887945 computed with scipy 1.10.1 and R 4.2.2.
  const { low, high } = ratioEstimate([0], [1], { nothing: '' });
  expect(low).toBe(0);
  expect(high).toBeCloseTo(3.68887945, 8);
});

describe("Student's t", () => {
  // Published tables give three decimals: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, column 0.975
  // (values from memory, confirmed with scipy 1.17.1).
  test.each([
    [1, 12.706],
    [2, 4.303],
    [3, 3.182],
    [5, 2.571],
    [10, 2.228],
    [19, 2.093],
    [30, 2.042],
    [120, 1.98],
  ])('with %i degrees of freedom', (degrees, table) => {
    expect(tQuantile(0.975, degrees)).toBeCloseTo(table, 3);
  });

  test('agrees with its closed forms for 1 and 2 degrees of freedom', () => {
    for (const p of [0.6, 0.75, 0.9, 0.975, 0.995]) {
      expect(tQuantile(p, 1) / Math.tan(Math.PI * (p - 0.5))).toBeCloseTo(1, 10);
      expect(tQuantile(p, 2) / ((2 * p - 1) / Math.sqrt(2 * p * (1 - p)))).toBeCloseTo(1, 10);
    }
  });
});

test('the jackknife of a ratio: hormone patches', () => {
  // B. Efron, R. J. Tibshirani, An Introduction to the Bootstrap, 1993, the patch data of sections 10.3 and 10.5 (data
  // and results from memory): ratio −0.0713, jackknife bias 0.0080.
  const oldMinusPlacebo = [8406, 2342, 8187, 8459, 4795, 3516, 4796, 10238];
  const newMinusOld = [-1200, 2601, -2705, 1982, -1290, 351, -638, -2719];
  const estimate = ratioEstimate(newMinusOld, oldMinusPlacebo, { nothing: '', signed: true });
  expect(estimate.value).toBeCloseTo(-0.0713, 4);

  // The same by pseudo-values, Tukey's way: their standard error is the jackknife's.
  const total = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0);
  const without = newMinusOld.map((y, i) => (total(newMinusOld) - y) / (total(oldMinusPlacebo) - oldMinusPlacebo[i]!));
  expect(7 * (total(without) / 8 - estimate.value!)).toBeCloseTo(0.008, 4);
  const pseudo = without.map((value) => 8 * estimate.value! - 7 * value);
  const mean = total(pseudo) / 8;
  const error = Math.sqrt(total(pseudo.map((value) => (value - mean) ** 2)) / (7 * 8));
  expect(jackknifeError(without)).toBeCloseTo(error, 12);
  // t(0.975; 7 degrees) = 2.365, from a table.
  expect((estimate.high! - estimate.low!) / (2 * error)).toBeCloseTo(2.365, 3);
});

describe('coverage where the truth is known', () => {
  // Days differ: each replicate has its own error rate, evenly from 2 to 18 in 100, and its own number of crossings,
  // and errors come two at a time. The true ratio is 10 in 100.
  const RUNS = 400;
  const REPLICATES = 20;
  function run(number: number): { events: number[]; crossings: number[] } {
    const stream = Stream.root('coverage').nth(number);
    const events: number[] = [];
    const crossings: number[] = [];
    let n = 0;
    for (let r = 0; r < REPLICATES; r++) {
      const visits = 20 + Math.floor(60 * stream.at(n++));
      const rate = 0.02 + 0.16 * stream.at(n++);
      let errors = 0;
      for (let v = 0; v < visits; v++) errors += stream.at(n++) < rate ? 2 : 0;
      events.push(errors);
      crossings.push(2 * visits);
    }
    return { events, crossings };
  }
  const runs = Array.from({ length: RUNS }, (_, i) => run(i));

  test('the jackknife-t interval holds the true ratio in about 95 of 100 runs', () => {
    const held = runs.filter(({ events, crossings }) => {
      const { low, high } = ratioEstimate(events, crossings, { scale: 100, nothing: '' });
      return low! <= 10 && high! >= 10;
    }).length;
    // Three standard errors of a share of 0.95 in 400 runs are 0.033; the jackknife may fall a little short itself.
    expect(held / RUNS).toBeGreaterThan(0.9);
    expect(held / RUNS).toBeLessThan(0.985);
  });

  test('one that takes crossings as independent would not: that is why replicates are left out', () => {
    const held = runs.filter(({ events, crossings }) => {
      const sum = (values: readonly number[]) => values.reduce((all, v) => all + v, 0);
      const { low, high } = wilsonEstimate(sum(events), sum(crossings), 100);
      return low! <= 10 && high! >= 10;
    }).length;
    expect(held / RUNS).toBeLessThan(0.8);
  });
});
