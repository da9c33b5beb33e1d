import fc from 'fast-check';
import { expect, test } from 'vitest';
import { HouseScorer } from '../../src/score/house.js';
import { MOST_STEPS, RoomTraceRecorder } from '../../src/score/room-trace.js';
import { RoomScorer } from '../../src/score/rooms.js';

const NEVER = {
  empty_while_occupied_episodes: 0,
  longest_empty_while_occupied_us: 0,
  occupied_while_empty_episodes: 0,
  longest_occupied_while_empty_us: 0,
  first_wrong_us: null,
};

test('an evening: someone comes in unseen and sits in the dark, later the light burns for nobody', () => {
  const room = new RoomScorer(100, 0, 0);
  room.truth(10, 1); // comes in, is missed
  room.truth(30, 2); // a second one, counted at 32
  room.counted(32, 1);
  room.truth(50, 0); // both leave, one is counted: right by accident
  room.counted(50, 0);
  room.counted(60, 1); // a cat
  expect(room.close()).toEqual({
    span_us: 100,
    exact_us: 10 + 10,
    empty_while_occupied_us: 22,
    occupied_while_empty_us: 40,
    absolute_error_us: 20 * 1 + 2 * 2 + 18 * 1 + 40 * 1,
    // Microseconds are no episodes.
    ...NEVER,
  });
});

test('a raw sum below zero is an empty room to whoever sits in it', () => {
  const room = new RoomScorer(10, 1, 0);
  room.counted(4, -1);
  expect(room.close()).toMatchObject({ exact_us: 0, empty_while_occupied_us: 10, absolute_error_us: 4 + 12 });
});

test('steps after the end of the clock count for nothing', () => {
  const room = new RoomScorer(10, 0, 0);
  room.truth(10, 5);
  room.truth(11, 6);
  expect(room.close()).toMatchObject({ exact_us: 10, absolute_error_us: 0 });
});

const steps = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: -1, max: 3 })), { maxLength: 12 })
  .map((drawn) => drawn.sort((a, b) => a[0] - b[0]));
const valueAt = (list: readonly (readonly [number, number])[], t: number) => list.findLast(([at]) => at <= t)?.[1] ?? 0;

/** Three seconds: four of them are an episode, three are none. */
const UNIT = 3_000_000;
const SPAN = 25;

/** Lengths and beginnings, in units, of the runs in which something holds that last for ten seconds or more. */
function runs(holds: readonly boolean[]): { from: number; length: number }[] {
  const text = holds.map((one) => (one ? 'x' : '.')).join('');
  return [...text.matchAll(/x{4,}/g)].map((match) => ({ from: match.index, length: match[0].length }));
}
const longest = (list: readonly { length: number }[]) => UNIT * Math.max(0, ...list.map(({ length }) => length));
const first = (list: readonly { from: number }[]) => (list[0] ? UNIT * list[0].from : null);

test('any interleaving of the two streams gives what adding up unit by unit gives', () => {
  fc.assert(
    fc.property(steps, steps, (drawn, counts) => {
      const truths = drawn.map(([at, persons]) => [at, Math.max(0, persons)] as const);
      const oneByOne = new RoomScorer(SPAN * UNIT, 0, 0);
      for (const [at, persons] of truths) oneByOne.truth(at * UNIT, persons);
      for (const [at, persons] of counts) oneByOne.counted(at * UNIT, persons);

      const together = new RoomScorer(SPAN * UNIT, 0, 0);
      for (let t = 0; t <= 30; t++) {
        together.advance(t * UNIT);
        for (const [at, persons] of counts) if (at === t) together.counted(at * UNIT, persons);
        for (const [at, persons] of truths) if (at === t) together.truth(at * UNIT, persons);
      }
      const units = Array.from({ length: SPAN }, (_, t) => ({
        truth: valueAt(truths, t),
        counted: valueAt(counts, t),
      }));
      const isEmpty = units.map(({ truth, counted }) => counted <= 0 && truth > 0);
      const isOccupied = units.map(({ truth, counted }) => counted > 0 && truth === 0);
      const isWrong = units.map(({ truth, counted }) => truth !== counted);
      const time = (holds: readonly boolean[]) => UNIT * holds.filter(Boolean).length;
      const expected = {
        span_us: SPAN * UNIT,
        exact_us: SPAN * UNIT - time(isWrong),
        empty_while_occupied_us: time(isEmpty),
        occupied_while_empty_us: time(isOccupied),
        absolute_error_us: UNIT * units.reduce((sum, { truth, counted }) => sum + Math.abs(truth - counted), 0),
        empty_while_occupied_episodes: runs(isEmpty).length,
        longest_empty_while_occupied_us: longest(runs(isEmpty)),
        occupied_while_empty_episodes: runs(isOccupied).length,
        longest_occupied_while_empty_us: longest(runs(isOccupied)),
        first_wrong_us: first(runs(isWrong)),
      };
      expect(oneByOne.close()).toEqual(expected);
      expect(together.close()).toEqual(expected);
      // Even points of the clock lie at 25/48 of a unit; the last one is read just before the end.
      const errors = Array.from({ length: 49 }, (_, k) => units[Math.min(SPAN - 1, Math.floor((k * SPAN) / 48))]!);
      expect(oneByOne.errors()).toEqual(errors.map(({ truth, counted }) => counted - truth));
      expect(together.errors()).toEqual(oneByOne.errors());
    }),
    { seed: 7, numRuns: 1000 },
  );
});

test('all rooms at once: right when every one is, and its total is that of all', () => {
  // [unit, room, true or counted, persons] in order of time.
  const happenings = fc
    .array(fc.tuple(fc.nat(30), fc.nat(2), fc.boolean(), fc.nat(3)), { maxLength: 16 })
    .map((drawn) => drawn.sort((a, b) => a[0] - b[0]));
  fc.assert(
    fc.property(happenings, (drawn) => {
      const start = [1, 0, 2];
      const house = new HouseScorer(SPAN * UNIT, start, start);
      const units: number[][] = [];
      const truths = [...start];
      const counts = [...start];
      for (let t = 0; t < SPAN; t++) {
        for (const [at, room, isTruth, persons] of drawn) if (at === t) (isTruth ? truths : counts)[room] = persons;
        units.push(counts.map((count, room) => count - truths[room]!));
      }
      for (const [at, room, isTruth, persons] of drawn) {
        if (isTruth) house.truth(at * UNIT, room, persons);
        else house.counted(at * UNIT, room, persons);
      }
      const isWrong = units.map((errors) => errors.some((error) => error !== 0));
      const totals = units.map((errors) => errors.reduce((sum, error) => sum + error, 0));
      expect(house.close()).toEqual({
        span_us: SPAN * UNIT,
        exact_us: UNIT * isWrong.filter((wrong) => !wrong).length,
        error_us: UNIT * totals.reduce((sum, total) => sum + total, 0),
        absolute_error_us: UNIT * totals.reduce((sum, total) => sum + Math.abs(total), 0),
        first_wrong_us: first(runs(isWrong)),
      });
    }),
    { seed: 8, numRuns: 500 },
  );
  const late = new HouseScorer(100, [0], [0]);
  late.truth(50, 0, 1);
  expect(() => late.counted(49, 0, 1)).toThrow(RangeError);
});

test('a short trace keeps every step, the start included', () => {
  const recorder = new RoomTraceRecorder(7.2e9);
  const room = new RoomScorer(7.2e9, 2, 0, recorder);
  room.truth(3.6e9, 1);
  room.counted(5.4e9, 1);
  room.close();
  expect(recorder.steps()).toEqual({ time_h: [0, 1, 1.5], truth: [2, 1, 1], counted: [0, 0, 1] });
});

test('a long trace is thinned to its limit, and off by less than a thousandth of the clock in time', () => {
  const span = 1e9;
  const recorder = new RoomTraceRecorder(span);
  const room = new RoomScorer(span, 0, 0, recorder);
  const size = 50_000;
  for (let i = 0; i < size; i++) {
    const at = Math.floor((i * span) / size);
    room.advance(at);
    room.truth(at, i);
  }
  room.close();
  const trace = recorder.steps();
  expect(trace.time_h.length).toBeLessThanOrEqual(MOST_STEPS);
  expect(trace.time_h.length).toBeGreaterThan(MOST_STEPS / 3);
  for (let k = 1; k < trace.time_h.length; k++) {
    expect(trace.time_h[k]).toBeGreaterThan(trace.time_h[k - 1]!);
    const trueAt = Math.floor((trace.time_h[k]! * 3.6e9 * size) / span);
    expect(Math.abs(trace.truth[k]! - trueAt)).toBeLessThanOrEqual(size / 1000);
  }
  expect(trace.truth.at(-1)).toBe(size - 1);
});
