import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hump, interpolate, smoothstep } from '../../src/engine/interpolate.js';

fc.configureGlobal({ seed: 21, numRuns: 200 });

/** A table of up to eight rows whose xs rise. */
const table = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: -9, max: 9 })), { minLength: 1, maxLength: 8 })
  .map((steps) => {
    let x = -20;
    return { xs: steps.map(([step]) => (x += step)), ys: steps.map(([, y]) => y) };
  });

describe('a line between the rows of a table', () => {
  test('goes through every row', () => {
    fc.assert(
      fc.property(table, ({ xs, ys }) => {
        expect(xs.map((x) => interpolate(xs, ys, x))).toEqual(ys);
      }),
    );
  });

  test('is as far along in y as in x between two rows', () => {
    fc.assert(
      fc.property(table, fc.double({ min: 0, max: 1, noNaN: true }), ({ xs, ys }, share) => {
        for (let i = 1; i < xs.length; i++) {
          const between = (all: readonly number[]) => all[i - 1]! + share * (all[i]! - all[i - 1]!);
          expect(interpolate(xs, ys, between(xs))).toBeCloseTo(between(ys), 9);
        }
      }),
    );
  });

  test('holds the first value before the first row and the last after the last', () => {
    const [xs, ys] = [
      [2, 5, 6],
      [10, 40, 7],
    ];
    expect([-Infinity, 1.999, 2, 6, 6.001, Infinity].map((x) => interpolate(xs, ys, x))).toEqual([10, 10, 10, 7, 7, 7]);
    expect(interpolate(xs, ys, 4)).toBe(30);
    expect(interpolate([3], [8], 100)).toBe(8);
  });
});

describe('from rest to rest', () => {
  test('goes all the way, half of it in half the time, at 1.5 times the mean pace there', () => {
    expect([0, 0.5, 1].map(smoothstep)).toEqual([0, 0.5, 1]);
    const slope = (t: number) => (smoothstep(t + 1e-6) - smoothstep(t - 1e-6)) / 2e-6;
    expect([0, 0.5, 1].map((t) => Math.abs(Math.round(1e4 * slope(t)) / 1e4))).toEqual([0, 1.5, 0]);
  });

  test('goes up to the most in the middle and down again, at rest at all three', () => {
    expect([0, 0.5, 1].map((t) => hump(3, t))).toEqual([0, 3, 0]);
    expect(hump(3, 0.2)).toBeCloseTo(hump(3, 0.8), 12);
    const slope = (t: number) => (hump(3, t + 1e-6) - hump(3, t - 1e-6)) / 2e-6;
    expect([0, 0.5, 1].map((t) => Math.abs(Math.round(1e3 * slope(t)) / 1e3))).toEqual([0, 0, 0]);
  });
});
