import { expect, test } from 'vitest';
import { Stream } from '../../../src/engine/stream.js';
import { HOUR_US, SECOND_US } from '../../../src/engine/time.js';
import { Restarts } from '../../../src/sensors/controllers/restarts.js';

const WEEK_US = 168 * HOUR_US;

function all(restarts_per_week: number, restart_s: number, weeks: number, stream = Stream.root('restarts')) {
  const restarts = new Restarts({ restarts_per_week, restart_s }, stream, weeks * WEEK_US);
  const list: [number, number][] = [];
  for (; restarts.start_us < Infinity; restarts.next()) list.push([restarts.start_us, restarts.end_us]);
  return list;
}

test('a controller that never restarts has none', () => {
  expect(all(0, 5, 10)).toEqual([]);
});

test('restarts are as many as the rate says, within the limits of a Poisson count, and follow one another', () => {
  const [per_week, weeks] = [10, 400];
  const list = all(per_week, 5, weeks);
  const expected = per_week * weeks;
  expect(Math.abs(list.length - expected)).toBeLessThan(4 * Math.sqrt(expected));
  list.forEach(([start, end], i) => {
    expect(end - start).toBe(5 * SECOND_US);
    expect(start).toBeGreaterThanOrEqual(list[i - 1]?.[1] ?? 0);
    expect(start).toBeLessThan(weeks * WEEK_US);
  });
  // Gaps are exponential: a share of 1/e of them is longer than the mean.
  const mean_us = WEEK_US / per_week;
  const longer = list.filter(([start], i) => start - (list[i - 1]?.[1] ?? 0) > mean_us).length / list.length;
  expect(Math.abs(longer - Math.exp(-1))).toBeLessThan(4 * Math.sqrt((0.3679 * 0.6321) / list.length));
});

test('every door of a controller finds the same ones', () => {
  expect(all(30, 5, 3)).toEqual(all(30, 5, 3));
});
