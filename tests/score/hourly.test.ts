import { expect, test } from 'vitest';
import { HourlyTrack, hourlyCounts, hoursCovered } from '../../src/score/hourly.js';

const HOUR = 3.6e9;
const MINUTE = HOUR / 60;

test('a clock of 30 hours from half past ten at night covers two nights and a day', () => {
  const covered = hoursCovered(30 * HOUR, 22.5);
  expect(covered.reduce((sum, h) => sum + h, 0)).toBeCloseTo(30, 12);
  // Half of the first hour, all of the next, half of the last; the night after midnight is another day's.
  expect([covered[21], covered[22], covered[23], covered[24], covered[52], covered[53]]).toEqual([
    0, 0.5, 1, 1, 0.5, 0,
  ]);
});

test('weeks lie over each other, and hours covered say by what to divide', () => {
  const covered = hoursCovered(15 * 24 * HOUR, 0, 6);
  // Day 6 comes three times in 15 days that begin with it, all others twice.
  expect(new Set(covered.slice(0, 6 * 24))).toEqual(new Set([2]));
  expect(new Set(covered.slice(6 * 24))).toEqual(new Set([3]));
});

test('a way to school on two mornings and a party at night, each in its own hour', () => {
  const track = new HourlyTrack(48 * HOUR, 7);
  track.crossed(40 * MINUTE, false, 2); // 7:40
  track.crossed(24 * HOUR + 59 * MINUTE, false, 3);
  track.crossed(19 * HOUR, true, 5); // 2:00 at night, the next day
  track.crossed(48 * HOUR, true, 9); // after the clock's end
  const counts = hourlyCounts('front', hoursCovered(48 * HOUR, 7), [track, track]);
  const cells = counts.hour.map((hour, i) => [
    counts.day[i],
    hour,
    counts.forward[i],
    counts.backward[i],
    counts.covered_h[i],
  ]);
  expect(cells).toHaveLength(48);
  expect(cells.filter(([, , forward, backward]) => forward! + backward! > 0)).toEqual([
    [0, 7, 0, 4, 2],
    [1, 2, 10, 0, 2],
    [1, 7, 0, 6, 2],
  ]);
});
