/**
 * Count errors that are independent steps of ±1 make a random walk, and of that everything is known exactly.
 *
 * Theory: mean n(p₊ − p₋), variance n(p₊ + p₋ − (p₊ − p₋)²) after n steps. The exact values below were computed
 * with a numpy Markov chain (some with exact fractions too); the chain in this file must give them again.
 */
import { describe, expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { DoorCounter } from '../../src/score/door-counts.js';
import { DoorScorer } from '../../src/score/door-scorer.js';
import { DriftTrack, driftBands } from '../../src/score/drift-bands.js';
import { rates } from '../../src/score/rates.js';
import { RoomScorer } from '../../src/score/rooms.js';
import { visit } from '../score/builders.js';

const STEP_US = 10_000_000;

/** Probabilities of S_n = −n … n, at index s + n, by the chain. */
function walkLaw(n: number, up: number, down: number): number[] {
  let law = [1];
  for (let k = 1; k <= n; k++) {
    const next: number[] = Array.from({ length: 2 * k + 1 }, () => 0);
    law.forEach((p, i) => {
      next[i] = next[i]! + p * down;
      next[i + 1] = next[i + 1]! + p * (1 - up - down);
      next[i + 2] = next[i + 2]! + p * up;
    });
    law = next;
  }
  return law;
}
const meanAbsolute = (law: readonly number[]) =>
  law.reduce((sum, p, i) => sum + p * Math.abs(i - (law.length - 1) / 2), 0);

test('the chain of this file gives the exact values: mean absolute error and chance of none after 100 and 500 steps', () => {
  expect(meanAbsolute(walkLaw(100, 0.01, 0.01))).toBeCloseTo(1.0494216, 7);
  expect(walkLaw(100, 0.01, 0.01)[100]).toBeCloseTo(0.3069341, 7);
  expect(meanAbsolute(walkLaw(500, 0.02, 0.02))).toBeCloseTo(3.5466404, 7);
  expect(walkLaw(500, 0.02, 0.02)[500]).toBeCloseTo(0.0897112, 7);
});

/** One replicate: people forward one by one; each is counted twice with chance `up`, missed with `down`. */
function replicate(stream: Stream, crossings: number, up: number, down: number) {
  const counter = new DoorCounter();
  const scorer = new DoorScorer(0, counter);
  const span_us = crossings * STEP_US;
  const track = new DriftTrack(span_us);
  const room = new RoomScorer(span_us, 0, 0);
  let counted = 0;
  for (let i = 0; i < crossings; i++) {
    const enter_us = i * STEP_US;
    const cross_us = enter_us + 1_000_000;
    scorer.visit(visit({ number: i + 1, body: i + 1, enter_us }));
    track.crossed(cross_us, 1);
    room.truth(cross_us, i + 1);
    const u = stream.at(i);
    for (let tallies = u < up ? 2 : u < up + down ? 0 : 1; tallies > 0; tallies--) {
      scorer.tally(cross_us, 'forward');
      track.tallied(cross_us, 1);
      room.counted(cross_us, ++counted);
    }
    scorer.advance(enter_us);
    room.advance(enter_us);
  }
  scorer.close();
  return { counts: counter.counts(), errors: track.errors(), times: room.close() };
}

describe.each([
  ['even', 0.01, 0.01],
  ['leaning', 0.03, 0.01],
])('a walk that is %s, %f up and %f down', (name, up, down) => {
  const root = Stream.root('random walk').child(name);
  const replicates = Array.from({ length: 40 }, (_, r) => replicate(root.nth(r), 5000, up, down));
  const found = rates(
    replicates.map(({ counts }) => counts),
    1,
  );

  test('spread over windows of 100 crossings is the root of its variance, bias its mean', () => {
    const { spread, bias } = found.drift_per_100;
    const trueSpread = Math.sqrt(100 * (up + down - (up - down) ** 2));
    expect(spread.n).toBe(40 * 50);
    // The interval is 95 %; 1.76 times it is 99.9 % (t with 39 degrees: 3.558 / 2.023, from memory).
    expect(Math.abs(spread.value! - trueSpread)).toBeLessThan(1.76 * (spread.high! - spread.value!));
    expect(Math.abs(bias.value! - 100 * (up - down))).toBeLessThan(1.76 * (bias.high! - bias.value!));
    // And the interval is worth something: its half-width is near that of theory, deviation/√(2 windows) for a normal.
    const half = spread.high! - spread.value!;
    expect(half).toBeGreaterThan(0.5 * 2.02 * (trueSpread / Math.sqrt(2 * 2000)));
    expect(half).toBeLessThan(2 * 2.02 * (trueSpread / Math.sqrt(2 * 2000)));
  });

  test('missed and extra per 100 are the chances of the steps', () => {
    for (const [estimate, truth] of [
      [found.missed_per_100, 100 * down],
      [found.extra_per_100, 100 * up],
    ] as const) {
      expect(Math.abs(estimate.value! - truth)).toBeLessThan(1.76 * (estimate.high! - estimate.value!));
    }
    expect(found.reversed_per_100.value).toBe(0);
  });
});

describe('many short walks of 100 steps, 0.02 up and 0.02 down', () => {
  const root = Stream.root('short walks');
  const SIZE = 4000;
  const replicates = Array.from({ length: SIZE }, (_, r) => replicate(root.nth(r), 100, 0.02, 0.02));
  const law = walkLaw(100, 0.02, 0.02);

  test('the error at the end is none as often as 0.2060651 says, and 1.5452696 on average', () => {
    const ends = replicates.map(({ errors }) => errors.at(-1)!);
    const none = ends.filter((error) => error === 0).length / SIZE;
    expect(Math.abs(none - 0.2060651)).toBeLessThan(3.29 * Math.sqrt((0.2060651 * 0.7939349) / SIZE));
    const mean = ends.reduce((sum, error) => sum + Math.abs(error), 0) / SIZE;
    // Variance of |S|: E S² − (E|S|)² = 100 · 0.04 − 1.5452696².
    expect(Math.abs(mean - 1.5452696)).toBeLessThan(3.29 * Math.sqrt((4 - 1.5452696 ** 2) / SIZE));
  });

  test('bands over the clock are the quantiles of the exact law', () => {
    const bands = driftBands(
      'door',
      'logic',
      100 * STEP_US,
      replicates.map(({ errors }) => errors),
    );
    /** The smallest error with at least this share at or below it. */
    const quantile = (share: number): number => {
      let sum = 0;
      return law.findIndex((p) => (sum += p) >= share) - 100;
    };
    // −3, −1, 0, 1, 3; none of the shares lies within 0.01 of a jump of the law, so sampling can't move them.
    expect([bands.q05, bands.q25, bands.q50, bands.q75, bands.q95].map((band) => band.at(-1))).toEqual(
      [0.05, 0.25, 0.5, 0.75, 0.95].map(quantile),
    );
  });

  test('the room is off by as many persons on average over the clock as the walk is over its steps', () => {
    // Step k comes 1 s after the k-th of 100 spans of 10 s began: 0.1 of each span still has the error before it.
    const before = Array.from({ length: 100 }, (_, k) => meanAbsolute(walkLaw(k, 0.02, 0.02)));
    const after = [...before.slice(1), meanAbsolute(law)];
    const exact = before.reduce((sum, error, k) => sum + 0.1 * error + 0.9 * after[k]!, 0) / 100;
    const each = replicates.map(({ times }) => times.absolute_error_us / times.span_us);
    const mean = each.reduce((sum, v) => sum + v, 0) / SIZE;
    const variance = each.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (SIZE - 1);
    expect(Math.abs(mean - exact)).toBeLessThan(3.29 * Math.sqrt(variance / SIZE));
  });
});
