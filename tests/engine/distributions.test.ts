/** Expected: jStat, an independent library, and the textbook moments written beside each. */
import fc from 'fast-check';
import jstat from 'jstat';
import { describe, expect, test } from 'vitest';
import {
  exponential,
  lognormal,
  normal,
  pick,
  poissonGap,
  runningTotals,
  standardWithin3,
  uniform,
} from '../../src/engine/distributions.js';
import { Stream } from '../../src/engine/stream.js';

fc.configureGlobal({ seed: 20, numRuns: 500 });

const unit = fc.double({ min: 2 ** -53, max: 1 - 2 ** -53, noNaN: true });
const middle = fc.double({ min: 0.001, max: 0.999, noNaN: true });

describe('against an independent library', () => {
  test('normal, exponential and log-normal quantiles', () => {
    fc.assert(
      fc.property(middle, (u) => {
        expect(normal(u, 10, 3)).toBeCloseTo(jstat.normal.inv(u, 10, 3), 7);
        expect(exponential(u, 20)).toBeCloseTo(jstat.exponential.inv(u, 1 / 20), 9);
        expect(lognormal(u, Math.exp(2), 0.8)).toBeCloseTo(jstat.lognormal.inv(u, 2, 0.8), 6);
      }),
    );
  });
});

describe('every draw', () => {
  test('rises with its uniform', () => {
    fc.assert(
      fc.property(unit, unit, (a, b) => {
        const [u, v] = a < b ? [a, b] : [b, a];
        for (const draw of [
          (p: number) => normal(p, 5, 2),
          (p: number) => exponential(p, 3),
          (p: number) => lognormal(p, 3, 0.5),
          (p: number) => uniform(p, -1, 4),
          standardWithin3,
        ]) {
          expect(draw(u)).toBeLessThanOrEqual(draw(v));
          expect(Number.isFinite(draw(u))).toBe(true);
        }
      }),
    );
  });
});

describe('moments over 100,000 draws, within 99.9 % of their own sampling error', () => {
  const n = 100_000;
  const stream = Stream.root('moments');
  // Variance of a sample variance is (kurtosis − 1) σ⁴ / n.
  test.each([
    // Uniform: mean (a + b)/2, variance (b − a)²/12, kurtosis 9/5.
    { name: 'uniform 2 to 5', draw: (u: number) => uniform(u, 2, 5), mean: 3.5, variance: 0.75, kurtosis: 1.8 },
    // Exponential: variance mean², kurtosis 9.
    { name: 'exponential 4', draw: (u: number) => exponential(u, 4), mean: 4, variance: 16, kurtosis: 9 },
    { name: 'Poisson gap at 0.25', draw: (u: number) => poissonGap(u, 0.25), mean: 4, variance: 16, kurtosis: 9 },
    { name: 'normal 1, 2', draw: (u: number) => normal(u, 1, 2), mean: 1, variance: 4, kurtosis: 3 },
    // Cut at ±3: variance 1 − 6 φ(3)/(2Φ(3) − 1); both moments integrated with mpmath.
    { name: 'normal within 3', draw: standardWithin3, mean: 0, variance: 0.973336925, kurtosis: 2.82889 },
    // Log-normal, median m: mean m e^(σ²/2), variance m² e^(σ²)(e^(σ²) − 1); kurtosis 8.9 at σ = 0.5.
    {
      name: 'log-normal 3, 0.5',
      draw: (u: number) => lognormal(u, 3, 0.5),
      mean: 3 * Math.exp(0.125),
      variance: 9 * Math.exp(0.25) * (Math.exp(0.25) - 1),
      kurtosis: 8.9,
    },
  ])('$name', ({ name, draw, mean, variance, kurtosis }) => {
    const own = stream.child(name);
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < n; i++) {
      const x = draw(own.at(i)) - mean;
      sum += x;
      squares += x * x;
    }
    expect(Math.abs(sum / n)).toBeLessThan(3.29 * Math.sqrt(variance / n));
    expect(Math.abs(squares / n - variance)).toBeLessThan(3.29 * variance * Math.sqrt((kurtosis - 1) / n));
  });
});

describe('pick', () => {
  test('falls in each share as often as its weight says, and never in an empty one', () => {
    const totals = runningTotals([0, 3, 0, 0, 1, 6, 0]);
    const cells = 1000;
    const counts = totals.map(() => 0);
    for (let i = 0; i < cells; i++) counts[pick((i + 0.5) / cells, totals)]! += 1;
    expect(counts).toEqual([0, 300, 0, 0, 100, 600, 0]);
  });

  test('agrees with walking along the list', () => {
    const shares = fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(unit, shares, (u, weights) => {
        const totals = runningTotals(weights);
        const total = totals.at(-1) as number;
        fc.pre(total > 0);
        expect(pick(u, totals)).toBe(totals.findIndex((running) => running > u * total));
      }),
    );
  });

  test('refuses to pick from nothing', () => {
    expect(() => pick(0.5, [])).toThrow(RangeError);
    expect(() => pick(0.5, [0, 0])).toThrow(RangeError);
  });
});

test('a rate of 0 never comes', () => {
  expect(poissonGap(0.5, 0)).toBe(Infinity);
});
