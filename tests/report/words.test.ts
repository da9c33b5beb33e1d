import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  count,
  decimal,
  decimalsFor,
  estimateWords,
  formatEstimate,
  metres,
  mixWords,
  named,
  percent,
} from '../../src/report/words.js';
import type { Estimate } from '../../src/score/metrics-schema.js';

const estimate = (value: number | null, low: number | null, high: number | null, reason?: string): Estimate => ({
  value,
  low,
  high,
  method: 'jackknife-t',
  n: 100,
  ...(reason === undefined ? {} : { reason }),
});

describe('an estimate is rounded to what its interval supports', () => {
  // Half-width 1.4: its first digit is 1, so one digit more is kept; half-width 5: none after the point.
  test.each([
    [estimate(9.3142, 7.91, 10.72), '9.3 (95\u00a0% interval 7.9 to 10.7)'],
    [estimate(48.13, 43.1, 53.1), '48 (95\u00a0% interval 43 to 53)'],
    [estimate(0.412, 0.38, 0.44), '0.41 (95\u00a0% interval 0.38 to 0.44)'],
    [estimate(-2.13, -4.03, -0.23), '−2.1 (95\u00a0% interval −4.0 to −0.2)'],
    [estimate(131.2, 60, 202), '131 (95\u00a0% interval 60 to 202)'],
  ])('%j', (e, words) => expect(formatEstimate(e)).toBe(words));

  test('a rate of zero with an upper bound', () => {
    expect(formatEstimate(estimate(0, 0, 0.0894))).toBe('0 (95\u00a0% interval 0 to 0.09)');
  });

  test('a small number is never printed as none', () => {
    expect(estimateWords(estimate(0.002, 0, 0.9)).value).toBe('<\u00a00.1');
  });

  test('an interval without width says what that means', () => {
    expect(formatEstimate(estimate(100, 100, 100))).toBe(
      '100 (95\u00a0% interval 100 to 100, the same in every replicate)',
    );
  });

  test('a share is a percentage', () => {
    expect(formatEstimate(estimate(0.213, 0.153, 0.273), 'share')).toBe(
      '21\u00a0% (95\u00a0% interval 15 to 27\u00a0%)',
    );
  });

  test('what is missing says why', () => {
    expect(formatEstimate(estimate(null, null, null, 'no crossing'))).toBe('not known (no crossing)');
    expect(formatEstimate(estimate(3.14159, null, null, 'one replicate'))).toBe('3.14 (no interval: one replicate)');
  });

  test('whatever comes, no NaN, no Infinity, no minus zero', () => {
    const any = fc.oneof(fc.double({ min: -1e9, max: 1e9 }), fc.constantFrom(null, NaN, Infinity, -Infinity, -0));
    fc.assert(
      fc.property(any, any, any, (value, low, high) => {
        for (const as of ['number', 'share'] as const) {
          expect(formatEstimate(estimate(value, low, high), as)).not.toMatch(
            /NaN|Infinity|null|undefined|[-−]0(?![.\d])/,
          );
        }
      }),
      { seed: 11 },
    );
  });

  test('between one and two digits of the half-width stand', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.0005, max: 500, noNaN: true }), (half) => {
        const last = 1 / 10 ** decimalsFor(-half, half);
        // The half-width is at least 3 and, where decimals are printed at all, below 30 units of the last place.
        if (last < 1 && last > 1e-4) expect(half / last).toBeLessThan(30.000001);
        if (last > 1e-4) expect(half / last).toBeGreaterThan(2.999999);
      }),
      { seed: 12 },
    );
  });
});

test('numbers a user typed keep their digits', () => {
  expect(decimal(0.7)).toBe('0.7');
  expect(decimal(10)).toBe('10');
  expect(decimal(-0.0001)).toBe('0');
  expect(percent(0.0625)).toBe('6.25\u00a0%');
  expect(metres(0.9)).toBe('0.90\u00a0m');
  expect(metres(0.085)).toBe('0.085\u00a0m');
  expect(count(1234567)).toBe('1,234,567');
});

test('a mix is named share by share', () => {
  const words = mixWords([
    { who: 'adult', kind: 'through', share: 0.62 },
    { who: 'child', kind: 'abreast', share: 0.3 },
    { who: 'tall-rod', kind: 'turn-back', share: 0.08 },
  ]);
  expect(words.replace(/[\u2068\u2069]/g, '').replace(/\u00a0/g, ' ')).toBe(
    '62 % adults going through, 30 % children two abreast and 8 % “tall-rod” turning back',
  );
});

test('a name cannot turn the sentence around it', () => {
  const hostile = '\u202eevil\u2066\u0007';
  expect(named(hostile)).toBe('\u2068\ufffdevil\ufffd\ufffd\u2069');
});

test('decimals: zeros after the point go, zeros before it are part of the number', () => {
  expect(decimal(0.8)).toBe('0.8');
  expect(decimal(20)).toBe('20');
  expect(decimal(80, 0)).toBe('80');
  expect(decimal(100, 0)).toBe('100');
  expect(decimal(-0.0001)).toBe('0');
});
