import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MOST_STEPS, RoomTraceRecorder } from '../../src/score/room-trace.js';
import { RoomScorer } from '../../src/score/rooms.js';

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

test('any interleaving of the two streams gives what adding up second by second gives', () => {
  fc.assert(
    fc.property(steps, steps, (drawn, counts) => {
      const truths = drawn.map(([at, persons]) => [at, Math.max(0, persons)] as const);
      const span = 25;
      const oneByOne = new RoomScorer(span, 0, 0);
      for (const [at, persons] of truths) oneByOne.truth(at, persons);
      for (const [at, persons] of counts) oneByOne.counted(at, persons);

      const together = new RoomScorer(span, 0, 0);
      for (let t = 0; t <= 30; t++) {
        together.advance(t);
        for (const [at, persons] of counts) if (at === t) together.counted(at, persons);
        for (const [at, persons] of truths) if (at === t) together.truth(at, persons);
      }
      let exact = 0;
      let empty = 0;
      let occupied = 0;
      let error = 0;
      for (let t = 0; t < span; t++) {
        const truth = valueAt(truths, t);
        const counted = valueAt(counts, t);
        exact += truth === counted ? 1 : 0;
        empty += counted <= 0 && truth > 0 ? 1 : 0;
        occupied += counted > 0 && truth === 0 ? 1 : 0;
        error += Math.abs(truth - counted);
      }
      const expected = {
        span_us: span,
        exact_us: exact,
        empty_while_occupied_us: empty,
        occupied_while_empty_us: occupied,
        absolute_error_us: error,
      };
      expect(oneByOne.close()).toEqual(expected);
      expect(together.close()).toEqual(expected);
    }),
    { seed: 7, numRuns: 1000 },
  );
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
