/** Lists of stretches of time, as breaks of a beam are. */
import { expect, test } from 'vitest';
import { lengthsOf, together, totalLength } from '../../src/simulate/stretches.js';

const breaks = [1, 3, 4, 9];

test('have lengths, gaps between them, and a length in all', () => {
  expect(lengthsOf(breaks, 'stretches')).toEqual([2, 5]);
  expect(lengthsOf(breaks, 'gaps')).toEqual([1]);
  expect(totalLength(breaks)).toBe(7);
  expect(totalLength([])).toBe(0);
});

test('are together if they share any time, not if one ends as the other begins', () => {
  expect(together(breaks, [8, 10])).toBe(true);
  expect(together([0, 10], [5, 6])).toBe(true);
  expect(together(breaks, [3, 4])).toBe(false);
  expect(together(breaks, [])).toBe(false);
});
