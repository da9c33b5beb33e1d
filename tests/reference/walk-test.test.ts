/** Exact binomial statistics of a walk test against published worked examples and a statistics package. */
import { describe, expect, test } from 'vitest';
import { type Claim, doubled } from '../../src/score/walk-test/claim.js';
import { atLeast, atMost, clopperPearson } from '../../src/score/walk-test/exact.js';
import { shareFound, walksNeeded } from '../../src/score/walk-test/sample-size.js';

describe("Clopper and Pearson's interval", () => {
  // R. G. Newcombe, "Two-sided confidence intervals for the single proportion: comparison of seven methods",
  // Statistics in Medicine 17, 1998, 857–872, Table I, method 5: four decimals as published.
  test.each([
    [81, 263, 0.2527, 0.3676],
    [15, 148, 0.0578, 0.1617],
    [0, 20, 0, 0.1684],
    [1, 29, 0.0009, 0.1776],
  ])("%i of %i, Newcombe's example", (events, trials, low, high) => {
    const interval = clopperPearson(events, trials, 0.95);
    expect(interval.low).toBeCloseTo(low, 4);
    expect(interval.high).toBeCloseTo(high, 4);
  });

  // Computed with scipy 1.17.1: binomtest(k, n).proportion_ci(method='exact').
  test.each([
    [81, 263, 0.25273674558504267, 0.36762192260134746],
    [1, 29, 0.0008726468835971072, 0.17764429548841465],
    [40, 40, 0.9119026971211966, 1],
  ])('%i of %i, a statistics package', (events, trials, low, high) => {
    const interval = clopperPearson(events, trials, 0.95);
    expect(interval.low).toBeCloseTo(low, 12);
    expect(interval.high).toBeCloseTo(high, 12);
  });

  test('nothing walked, nothing known', () => {
    expect(clopperPearson(0, 0, 0.95)).toEqual({ low: 0, high: 1 });
  });
});

describe("Mendel's peas: 682 of 925 where three in four are expected", () => {
  // W. J. Conover, "Practical nonparametric statistics", 1971, p. 97 f., as worked in the help page of R's binom.test:
  // p-value = 0.3825, 95 percent confidence interval 0.7076683 0.7654066. (That page is quoted from memory; scipy
  // 1.17.1 gives 0.38249156 and 0.70766826 to 0.76540656.)
  const [events, trials, share] = [682, 925, 0.75];

  test('its interval', () => {
    const { low, high } = clopperPearson(events, trials, 0.95);
    expect(low).toBeCloseTo(0.7076683, 7);
    expect(high).toBeCloseTo(0.7654066, 7);
  });

  test('its p-value, of all that is no likelier than what was seen', () => {
    const chance = (k: number) => atMost(k, trials, share) - atMost(k - 1, trials, share);
    let above = Math.ceil(trials * share);
    while (chance(above) > chance(events)) above++;
    expect(atMost(events, trials, share) + atLeast(above, trials, share)).toBeCloseTo(0.3825, 4);
  });
});

test('three of fifteen where one in ten is expected, one-sided', () => {
  // The example of scipy's documentation of binomtest: 0.18406106910639114.
  expect(atLeast(3, 15, 0.1)).toBeCloseTo(0.184061069106391, 14);
});

test('tails', () => {
  // Computed with scipy 1.17.1: binom.sf(11, 150, .05), binom.cdf(3, 150, .05).
  expect(atLeast(12, 150, 0.05)).toBeCloseTo(0.07400412445774161, 12);
  expect(atMost(3, 150, 0.05)).toBeCloseTo(0.05476980913082903, 12);
  // What can't be, and what is sure.
  expect([atMost(-1, 5, 0.5), atMost(5, 5, 0.5), atLeast(0, 5, 0.5), atLeast(6, 5, 0.5)]).toEqual([0, 1, 1, 0]);
  expect([atLeast(1, 5, 0), atMost(4, 5, 1)]).toEqual([0, 0]);
  // A small tail keeps its digits: all of forty at one in a hundred is 1e-80.
  expect(atLeast(40, 40, 0.01) / 1e-80).toBeCloseTo(1, 9);
});

const claim = (share: number): Claim => ({ of: 'wrong', low: share, high: share, beyond: doubled(share) });

describe('sample sizes', () => {
  // Computed with scipy 1.17.1: the first even n with binom.sf(c − 1, n, p1) ≥ 0.8, where c is the smallest number with
  // 2 · binom.sf(c − 1, n, p0) ≤ error.
  test.each([
    [0.01, 0.05, 1126],
    [0.05, 0.05, 214],
    [0.06, 0.01, 250],
    [0.1, 0.05, 94],
    [0.1, 0.05 / 6, 150],
    [0.2, 0.05, 44],
    [0.3, 0.05, 26],
  ])('twice %f, error %f: %i walks', (share, error, walks) => {
    expect(walksNeeded(claim(share), error, 2000)).toBe(walks);
    expect(walksNeeded(claim(share), error, walks - 1)).toBeNull();
  });

  // Computed with scipy 1.17.1: the smallest thousandth with binom.sf(c − 1, n, p) ≥ 0.8.
  test.each([
    [20, 0.0026, 0.05 / 6, 0.143],
    [60, 0.001, 0.05, 0.05],
    [40, 0.05, 0.05, 0.191],
    [130, 0.0624, 0.05 / 6, 0.154],
  ])('%i walks where %f are predicted, error %f: %f is found out', (walks, share, error, found) => {
    expect(shareFound(claim(share), walks, error)).toBe(found);
  });
});
