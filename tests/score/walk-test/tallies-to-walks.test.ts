/** Whose tally is it? */
import { expect, test } from 'vitest';
import { talliesToWalks } from '../../../src/score/walk-test/tallies-to-walks.js';

const s = 1_000_000;
const walk = (start: number, end: number | null = null) => ({
  start_us: start * s,
  end_us: end === null ? null : end * s,
});
const forward = (...times: number[]) => times.map((time) => ({ time_us: time * s, direction: 'forward' as const }));
const counts = (walks: ReturnType<typeof walk>[], times: number[], latency_s = 0) => {
  const { counted, of_no_walk } = talliesToWalks(walks, forward(...times), latency_s * s);
  return [...counted.map((one) => one.forward), of_no_walk];
};

test('a tally in a walk is its own, whatever the order of the sheet', () => {
  expect(counts([walk(10, 15), walk(30, 35)], [12, 13, 33])).toEqual([2, 1, 0]);
  expect(counts([walk(30, 35), walk(10, 15)], [12, 13, 33])).toEqual([1, 2, 0]);
});

test('clocks are read to two seconds, and a logic may take its time', () => {
  expect(counts([walk(10, 15)], [8.5, 16.5])).toEqual([2, 0]);
  expect(counts([walk(10, 15)], [7.5, 17.5])).toEqual([0, 2]);
  expect(counts([walk(10, 15)], [17.5], 3)).toEqual([1, 0]);
});

test('between two walks that touch, the one that was under way has it', () => {
  expect(counts([walk(10, 15), walk(15, 20)], [14.9, 15.1])).toEqual([1, 1, 0]);
  expect(counts([walk(10, 12), walk(15, 20)], [13.5])).toEqual([1, 0, 0]);
});

test('with a start alone a walk lasts until the next', () => {
  expect(counts([walk(10), walk(40)], [30, 41, 90, 110])).toEqual([1, 2, 1]);
});

test('directions are told apart', () => {
  const { counted } = talliesToWalks([walk(0, 5)], [{ time_us: s, direction: 'backward' }, ...forward(2)], 0);
  expect(counted).toEqual([{ forward: 1, backward: 1 }]);
});
