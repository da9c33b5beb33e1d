/** Times of real logs: counters that turn, rows that come late or twice, silences nobody can measure. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { InOrder, type LogEvent } from '../../../src/simulate/replay/in-order.js';
import { LATE_US, TimeMender } from '../../../src/simulate/replay/time-mender.js';

const MINUTE_US = 60_000_000;
const TURN = 4_294_967_296;

describe('a counter of 32 bits', () => {
  // Arithmetic modulo 2^32 is the outside truth here: what was taken off comes back.
  test.each([
    ['microseconds', 1, 25 * MINUTE_US],
    ['milliseconds', 1000, 12 * 24 * 60 * MINUTE_US],
  ])('of %s is unwrapped over many turns, whatever the gaps below half a turn', (_, unit_us, longest_us) => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: longest_us / unit_us }), { minLength: 200, maxLength: 300 }),
        fc.integer({ min: 0, max: TURN - 1 }),
        (gaps, start) => {
          const mender = new TimeMender(unit_us);
          let count = start;
          const mended: number[] = [];
          const truth: number[] = [];
          for (const [i, gap] of gaps.entries()) {
            count += gap;
            truth.push(count * unit_us);
            mended.push(mender.mend((count % TURN) * unit_us, i) as number);
          }
          const first = truth[0]!;
          expect(mended.map((time) => time - mended[0]!)).toEqual(truth.map((time) => time - first));
          expect(mender.wraps).toBe(Math.floor(truth.at(-1)! / unit_us / TURN) - Math.floor(first / unit_us / TURN));
          expect(mender.silences).toEqual([]);
        },
      ),
      { seed: 4, numRuns: 30 },
    );
  });

  test('is silent for forty minutes: the time across that is not known, and goes on', () => {
    const mender = new TimeMender(1);
    expect(mender.mend(0, 2)).toBe(0);
    expect(mender.mend(40 * MINUTE_US, 3)).toBe(40 * MINUTE_US);
    expect(mender.silences).toEqual([{ line: 3, from_us: 0, at_least_us: 40 * MINUTE_US }]);
  });

  test('that counts beyond 32 bits was none: nothing was hidden', () => {
    const mender = new TimeMender(1);
    mender.mend(0, 2);
    mender.mend(50 * MINUTE_US, 3);
    mender.mend(TURN + 5, 4);
    expect(mender.silences).toEqual([]);
    expect(mender.wraps).toBe(0);
  });

  test('takes a late row from before the turn for what it is', () => {
    const mender = new TimeMender(1);
    mender.mend(TURN - 1000, 2);
    expect(mender.mend(500, 3)).toBe(TURN + 500);
    expect(mender.mend(TURN - 200, 4)).toBe(TURN - 200);
    expect(mender.wraps).toBe(1);
  });
});

test('time that runs backwards by more than rows may be late is told by how much', () => {
  const mender = new TimeMender(null);
  mender.mend(10_000_000, 2);
  expect(mender.mend(10_000_000 - LATE_US, 3)).toBe(8_000_000);
  expect(mender.mend(4_000_000, 4)).toEqual({ back_us: 6_000_000 });
});

describe('rows in order', () => {
  const event = (time_us: number, beam = 0, level: 0 | 1 = 1): LogEvent => ({
    time_us,
    door: 0,
    beam,
    level,
    distance_um: null,
  });

  test('come out by time, however they were shuffled within two seconds, each once', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 60_000_000 }), { minLength: 2, maxLength: 60 }),
        fc.infiniteStream(fc.integer({ min: 0, max: LATE_US })),
        (times, lates) => {
          const events = [...new Set(times)].map((time, i) => event(time, i % 2, (i % 3) % 2 === 0 ? 1 : 0));
          const written = events
            .map((one) => ({ one, at: one.time_us + (lates.next().value as number) }))
            .sort((a, b) => a.at - b.at)
            .map(({ one }) => one);
          const given: LogEvent[] = [];
          const order = new InOrder((one) => given.push(one));
          // Every row twice: a logger that sends again what wasn't acknowledged.
          for (const one of written) {
            order.put(one);
            order.put(one);
          }
          order.release();
          expect(given).toEqual(events.toSorted((a, b) => a.time_us - b.time_us));
          expect(order.duplicates).toBe(events.length);
        },
      ),
      { seed: 6, numRuns: 100 },
    );
  });
});
