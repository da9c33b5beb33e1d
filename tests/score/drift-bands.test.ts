import { expect, test } from 'vitest';
import { DriftTrack, driftBands, STRETCHES } from '../../src/score/drift-bands.js';

const HOUR = 3.6e9;

test('the error at a point is all tallies up to then minus all crossings up to then, in whatever order they come', () => {
  const track = new DriftTrack(48 * HOUR);
  track.tallied(47.5 * HOUR, 1);
  track.crossed(2 * HOUR, 1);
  track.tallied(2 * HOUR + 1, 1);
  track.crossed(49 * HOUR, 1); // after the clock's end
  track.crossed(0, -2);
  const errors = track.errors();
  expect(errors).toHaveLength(STRETCHES + 1);
  expect(errors.slice(0, 5)).toEqual([2, 2, 1, 2, 2]);
  expect(errors.slice(-2)).toEqual([2, 3]);
});

test('bands are quantiles over replicates at each point of the clock', () => {
  // 21 replicates with errors 0 to 20 at every point: the 5 % quantile of 0…20 is 1, and so on.
  const replicates = Array.from({ length: 21 }, (_, i) => Array.from({ length: STRETCHES + 1 }, () => (i * 8) % 21));
  const bands = driftBands('front', 'four-level', 24 * HOUR, replicates);
  expect(bands.clock_h).toHaveLength(49);
  expect([bands.clock_h[0], bands.clock_h[1], bands.clock_h[48]]).toEqual([0, 0.5, 24]);
  expect([bands.q05[7], bands.q25[7], bands.q50[7], bands.q75[7], bands.q95[7]]).toEqual([1, 5, 10, 15, 19]);
});
