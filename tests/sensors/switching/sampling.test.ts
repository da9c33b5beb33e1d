/**
 * Whether a body is read at all. Derived, not measured: readings come every P with a phase that is uniform, and a body is
 * seen for D = kP + r, 0 ≤ r < P. Then k + 1 readings fall into D with probability r/P, k with 1 − r/P, and so at least m
 * with probability min(1, max(0, D/P − (m − 1))).
 */
import { expect, test } from 'vitest';
import { Stream } from '../../../src/engine/stream.js';
import { switchWith, um } from './readings.js';

const PERIOD_US = 60_000;
const BODIES = 4000;
const atLeast = (m: number, seen_us: number): number => Math.min(1, Math.max(0, seen_us / PERIOD_US - (m - 1)));

/** How many of many bodies break a beam that is read on and on, each coming at a uniform instant well after the last. */
function caught(settings: object, seen_us: number): number {
  const beam = switchWith({ nearer_than_m: 0.5, ...settings });
  const chance = Stream.root(`sampling ${JSON.stringify(settings)} ${seen_us}`);
  // Long enough for each that windows have emptied again; at most six readings of a body in these tests.
  const each_us = 20 * PERIOD_US;
  // A window that is not full yet turns sooner: the door is idle at first.
  for (let idle = 20; idle > 0; idle--) beam.reading(-idle * PERIOD_US, um(900));
  let breaks = 0;
  for (let body = 0; body < BODIES; body++) {
    const comes_us = Math.floor(chance.at(body) * PERIOD_US);
    for (let time_us = 0; time_us < each_us; time_us += PERIOD_US) {
      const there = time_us >= comes_us && time_us < comes_us + seen_us;
      const before = beam.level;
      beam.reading(body * each_us + time_us, um(there ? 300 : 900));
      if (beam.level > before) breaks++;
    }
  }
  return breaks;
}

test('a body that is seen for as long as the readings it takes are apart is never missed', () => {
  for (const m of [1, 2, 4]) {
    for (const seen_us of [m * PERIOD_US, m * PERIOD_US + 1, (m + 1.5) * PERIOD_US]) {
      expect(caught({ minimum_samples: m }, seen_us)).toBe(BODIES);
    }
  }
});

test('a body that is seen for less than a reading is missed with 1 − D/P, within four standard errors', () => {
  for (const share of [0.05, 0.3, 0.5, 0.8, 0.99]) {
    const seen_us = share * PERIOD_US;
    const error = Math.sqrt((share * (1 - share)) / BODIES);
    const missed = 1 - caught({}, seen_us) / BODIES;
    expect(Math.abs(missed - (1 - share)), `${share}`).toBeLessThan(4 * error);
  }
});

test.each([
  ['minimum_samples: 2', { minimum_samples: 2 }, 2],
  ['minimum_samples: 4', { minimum_samples: 4 }, 4],
  // A body's readings come in a row: the median of 2k + 1 has turned once k + 1 of them are near.
  ['median_of: 3', { median_of: 3 }, 2],
  ['median_of: 7', { median_of: 7 }, 4],
  // And the median turns back as late as it turned, so a run of it is as long as the body's own: k + m readings.
  ['both', { median_of: 3, minimum_samples: 2 }, 2],
])('%s catches with D/P − (m − 1), and never what is seen for m − 1 readings alone', (_, settings, m) => {
  expect(caught(settings, (m - 1) * PERIOD_US)).toBe(0);
  for (const share of [0.25, 0.6, 0.9]) {
    const seen_us = (m - 1 + share) * PERIOD_US;
    const expected = atLeast(m, seen_us);
    expect(expected).toBeCloseTo(share, 10);
    const error = Math.sqrt((expected * (1 - expected)) / BODIES);
    expect(Math.abs(caught(settings, seen_us) / BODIES - expected), `${share}`).toBeLessThan(4 * error);
  }
  expect(caught(settings, m * PERIOD_US)).toBe(BODIES);
});
