/** How many replicates a design gets follows from its first ones alone. */
import { describe, expect, test } from 'vitest';
import { Stopping } from '../../../src/study/judge/stopping.js';
import type { Estimate } from '../../../src/score/metrics-schema.js';

const until = new Stopping({
  until: 'house.wrong_per_100',
  half_width: 1,
  batch: 4,
  at_least: 6,
  at_most: 17,
  most_passages: 1000,
});
const estimate =
  (half: number | null): (() => Estimate) =>
  () => ({
    value: 5,
    low: half === null ? null : 5 - half,
    high: half === null ? null : 5 + half,
    method: 'jackknife-t',
    n: 100,
  });

test('looks are at fixed numbers of replicates', () => {
  const looks = [until.lookAfter(0)];
  while (looks.at(-1)! < until.most) looks.push(until.lookAfter(looks.at(-1)!));
  expect(looks).toEqual([6, 10, 14, 17]);
  expect(until.looks).toBe(looks.length);
});

describe('a design ends', () => {
  test.each([
    ['when its interval is narrow enough', 6, estimate(1), 500, 'narrow'],
    ['not when it is wider', 6, estimate(1.01), 500, null],
    ['not without an interval', 6, estimate(null), 500, null],
    ['when its passages are used up', 10, estimate(3), 1000, 'passages'],
    ['when its replicates are', 17, estimate(3), 500, 'replicates'],
  ])('%s', (_, n, of, passages, ended) => {
    expect(until.endsAt(n, of, passages)).toBe(ended);
  });

  test('at a fixed number, whatever the interval', () => {
    const fixed = new Stopping(20);
    expect([fixed.lookAfter(0), fixed.looks, fixed.endsAt(20, estimate(0), 1)]).toEqual([20, 1, 'fixed']);
  });
});
