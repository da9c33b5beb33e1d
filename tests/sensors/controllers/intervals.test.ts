/** How often each ranger is really read, worked by hand. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { intervalOf } from '../../../src/sensors/controllers/intervals.js';
import type { Round } from '../../../src/sensors/controllers/rounds.js';
import { controllerSchema } from '../../../src/sensors/controllers/schema.js';
import { per_round_us, turnLength_us } from '../../../src/sensors/controllers/turn-length.js';

function round(settings: object, turns: readonly (readonly number[])[]): Round {
  return {
    controller: controllerSchema.parse({ name: 'hall', loop_ms: 0, ...settings }),
    index: 0,
    turns: turns.map((turn) => turn.map((beam) => ({ door: 0, beam }))),
  };
}
const longest = (of: Round, busyOf: (beam: number) => number) =>
  intervalOf(of, ({ beam }) => busyOf(beam)).members.map(({ beam, longest_us }) => [beam, longest_us]);

const SIX = [[0], [1], [2], [3], [4], [5]];

test('six rangers one after another at a cycle of 60 ms are each read every 360 ms', () => {
  const six = round({ cycle_ms: 60 }, SIX);
  expect(intervalOf(six, () => 23_000).round_us).toBe(360_000);
  expect(longest(six, () => 23_000)).toEqual(SIX.map(([beam]) => [beam, 360_000]));
});

test('what is done once a round makes it so much longer', () => {
  expect(intervalOf(round({ cycle_ms: 60, per_round_ms: 40 }, SIX), () => 23_000).round_us).toBe(400_000);
});

test('six rangers in two turns of three are read three times as often', () => {
  const three = round({ cycle_ms: 60 }, [
    [0, 2, 4],
    [1, 3, 5],
  ]);
  expect(intervalOf(three, () => 23_000).round_us).toBe(120_000);
});

test('a cycle that is too short is stretched in those turns alone that need more, and says so', () => {
  const short = round({ cycle_ms: 30, loop_ms: 1 }, [[0], [1]]);
  const { round_us, turns } = intervalOf(short, ({ beam }) => (beam === 0 ? 38_000 : 29_000));
  expect(turns).toEqual([
    { length_us: 39_000, stretched: true, needs_us: 39_000 },
    { length_us: 30_000, stretched: false, needs_us: 30_000 },
  ]);
  expect(round_us).toBe(69_000);
});

test('the slowest of those read together decides, and each writes its own characters', () => {
  // 8 characters at 9600 Bd are 80 bits, 8.333 ms; two of them 16.667 ms.
  const { turns } = intervalOf(round({ wait_ms: 5, serial_baud: 9600, serial_characters: 8 }, [[0, 1]]), ({ beam }) =>
    beam === 0 ? 3000 : 12_000,
  );
  expect(turns).toEqual([{ length_us: 12_000 + 16_667 + 5000, stretched: false, needs_us: 28_667 }]);
});

test('who is read twice a round waits for the longer of two gaps', () => {
  // Starts at 0, 30, 60, 90 ms of a round of 130 ms: ranger 0 at 0 and 60, so 60 and 70 ms apart.
  const twice = round({ per_round_ms: 10 }, [[0], [1], [0], [2]]);
  expect(longest(twice, () => 1000)).toEqual([
    [0, 70_000],
    [1, 130_000],
    [2, 130_000],
  ]);
});

test('a controller without rangers has a round of nothing', () => {
  expect(intervalOf(round({}, []), () => 1)).toEqual({ round_us: 0, turns: [], members: [] });
});

test('the intervals are those of rounds that are walked through turn by turn', () => {
  const turnsOf = fc.array(fc.uniqueArray(fc.integer({ min: 0, max: 4 }), { minLength: 1, maxLength: 3 }), {
    minLength: 1,
    maxLength: 6,
  });
  const pace = fc.oneof(
    fc.record({ cycle_ms: fc.integer({ min: 1, max: 60 }) }),
    fc.record({ wait_ms: fc.integer({ min: 0, max: 60 }) }),
  );
  const busies = fc.array(fc.integer({ min: 0, max: 50_000 }), { minLength: 5, maxLength: 5 });
  fc.assert(
    fc.property(turnsOf, pace, busies, fc.integer({ min: 0, max: 90 }), (turns, given, busy, per_round_ms) => {
      const walked = round({ ...given, per_round_ms, serial_characters: 5 }, turns);
      const seen = new Map<number, number[]>();
      let now_us = 0;
      for (let lap = 0; lap < 3; lap++) {
        for (const turn of walked.turns) {
          for (const { beam } of turn) seen.set(beam, [...(seen.get(beam) ?? []), now_us]);
          const slowest_us = turn.reduce((most, { beam }) => Math.max(most, busy[beam]!), 0);
          now_us += turnLength_us(walked.controller, turn.length, slowest_us);
        }
        now_us += per_round_us(walked.controller);
      }
      const gaps = [...seen].map(([beam, at]) => [beam, Math.max(...at.slice(1).map((time, i) => time - at[i]!))]);
      expect(longest(walked, (beam) => busy[beam]!)).toEqual(gaps);
      expect(intervalOf(walked, ({ beam }) => busy[beam]!).round_us * 3).toBe(now_us);
    }),
    { numRuns: 200, seed: 1 },
  );
});
