import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { interpolate } from '../../src/engine/interpolate.js';

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
