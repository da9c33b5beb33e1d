/** Sets of intervals against the same sets of whole numbers, one by one. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { addInterval, intersect } from '../../src/geometry/intervals.js';

const LONGEST = 40;
const intervals = fc.array(
  fc.tuple(fc.integer({ min: 0, max: LONGEST }), fc.integer({ min: 1, max: 8 })).map(([s, n]) => [s, s + n] as const),
  { maxLength: 12 },
);
/** Cells from k to k + 1 that a list covers. */
const cells = (list: readonly number[]): number[] =>
  Array.from({ length: LONGEST + 10 }, (_, k) => k).filter((k) =>
    list.some((start, i) => i % 2 === 0 && start <= k && k + 1 <= list[i + 1]!),
  );
const added = (all: readonly (readonly [number, number])[]): number[] => {
  const list: number[] = [];
  for (const [start, end] of all) addInterval(list, start, end);
  return list;
};

test('what is added is there, sorted and apart, and nothing else', () => {
  fc.assert(
    fc.property(intervals, (all) => {
      const list = added(all);
      expect(list.every((at, i) => i === 0 || list[i - 1]! < at)).toBe(true);
      expect(cells(list)).toEqual(cells(all.flat()));
    }),
    { seed: 3, numRuns: 500 },
  );
});

test('what touches is joined; what is within changes nothing', () => {
  expect(
    added([
      [0, 2],
      [4, 6],
      [2, 4],
    ]),
  ).toEqual([0, 6]);
  expect(
    added([
      [0, 6],
      [1, 5],
    ]),
  ).toEqual([0, 6]);
  expect(
    added([
      [4, 6],
      [0, 4],
    ]),
  ).toEqual([0, 6]);
});

test('an intersection is where both are', () => {
  fc.assert(
    fc.property(intervals, intervals, (a, b) => {
      const [one, other] = [added(a), added(b)];
      const both = new Set(cells(other));
      expect(cells(intersect(one, other))).toEqual(cells(one).filter((k) => both.has(k)));
      expect(intersect(one, one)).toEqual(one);
    }),
    { seed: 4, numRuns: 500 },
  );
});
