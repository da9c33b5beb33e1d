/** Controllers reading rangers: the pace that is computed is the pace that happens, and jumping quiet time changes nothing. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Stream } from '../../../src/engine/stream.js';
import { type Guest, type House, rowsOf } from './rangers.js';
import { howMany } from '../../how-many.js';

const SECOND = 1_000_000;

/** Times of a beam's readings while a guest who never goes keeps every reading told. */
function readTimes(house: Omit<House, 'guests' | 'clock_us'>, door: number, beam: number): number[] {
  const always: Guest = { start_us: 0, end_us: 20 * SECOND, seen_m: 0.5 };
  const guests = house.doors.map(() => [always]);
  return rowsOf({ ...house, guests, clock_us: 20 * SECOND }, true)
    .filter(([what, d, b, time]) => what === 'reading' && d === door && b === beam && time < 19 * SECOND)
    .map(([, , , time]) => time);
}

function gaps(times: readonly number[]): number[] {
  return [...new Set(times.slice(1).map((time, i) => time - (times[i] as number)))];
}

describe('turns', () => {
  test('six rangers one after another at a cycle of 60 ms are each read every 360 ms plus what a round takes', () => {
    const house = {
      controllers: [{ name: 'main', cycle_ms: 60, per_round_ms: 7 }],
      doors: [
        { controller: 'main', beams: 2 },
        { controller: 'main', beams: 2 },
        { controller: 'main', beams: 2 },
      ],
    };
    for (const door of [0, 1, 2])
      for (const beam of [0, 1]) expect(gaps(readTimes(house, door, beam))).toEqual([367_000]);
    const [first = 0] = readTimes(house, 0, 0);
    const [second = 0] = readTimes(house, 0, 1);
    expect(Math.abs(second - first) % 60_000).toBe(0);
  });

  test('with wait_ms the pace follows the echo: nearer bodies are read more often', () => {
    const house = {
      controllers: [{ name: 'main', wait_ms: 10, loop_ms: 0 }],
      doors: [{ controller: 'main', beams: 1 }],
    };
    // 0.5 m takes 3 ms here.
    expect(gaps(readTimes(house, 0, 0))).toEqual([13_000]);
  });

  test('a cycle too short for the echo is stretched', () => {
    const house = {
      controllers: [{ name: 'main', cycle_ms: 1, loop_ms: 0.5 }],
      doors: [{ controller: 'main', beams: 1 }],
    };
    expect(gaps(readTimes(house, 0, 0))).toEqual([3500]);
  });

  test('rangers of one turn are read together', () => {
    const house = {
      controllers: [{ name: 'main', cycle_ms: 30, turns: [['door 0.0', 'door 0.1']] }],
      doors: [{ controller: 'main', beams: 2 }],
    };
    expect(readTimes(house, 0, 0)).toEqual(readTimes(house, 0, 1));
  });

  test('what is written to a serial line at 9600 Bd takes 10 bits a character', () => {
    // 12 characters · 10 bits / 9600 Bd = 12.5 ms, on top of 3 ms of echo and 0.1 ms of loop.
    const house = {
      controllers: [{ name: 'main', wait_ms: 0, serial_baud: 9600, serial_characters: 12 }],
      doors: [{ controller: 'main', beams: 1 }],
    };
    expect(gaps(readTimes(house, 0, 0))).toEqual([15_600]);
  });
});

describe('a body in the cone for D, read every P', () => {
  // Sampling at a fixed pace with a uniform phase: an interval of length D holds a sample with probability min(1, D/P).
  const P = 60_000;
  const bodies = 2000;
  function missed(D: number, minimum_samples: number): number {
    const phases = Stream.root(`phases ${D}`);
    const guests = Array.from({ length: bodies }, (_, n) => {
      const start_us = SECOND * (n + 1) + Math.floor(phases.at(n) * P);
      return { start_us, end_us: start_us + D - 1, seen_m: 0.3 };
    });
    const rows = rowsOf(
      {
        controllers: [{ name: 'main', cycle_ms: P / 1000, loop_ms: 0 }],
        doors: [{ controller: 'main', beams: 1 }],
        sensor: { switching: { minimum_samples } },
        guests: [guests],
        clock_us: (bodies + 2) * SECOND,
      },
      true,
    );
    return bodies - rows.filter(([what, , , , level]) => what === 'edge' && level === 1).length;
  }

  test.each([P, P + 1, 90_000])('D = %i µs, not shorter than P, is never missed', (D) => {
    expect(missed(D, 1)).toBe(0);
  });

  test.each([15_000, 30_000, 50_000])('D = %i µs is missed with probability 1 − D/P', (D) => {
    const p = 1 - D / P;
    expect(Math.abs(missed(D, 1) / bodies - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / bodies));
  });

  test('for m samples m reads in a row must fall into D', () => {
    // Between (m − 1)·P and m·P the chance is D/P − (m − 1); from m·P on it is certain.
    const p = 1 - (130_000 / P - 2);
    expect(Math.abs(missed(130_000, 3) / bodies - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / bodies));
    expect(missed(3 * P, 3)).toBe(0);
    expect(missed(2 * P, 3)).toBe(bodies);
  });
});

describe('quiet time is jumped', () => {
  const share = fc.constantFrom(0, 0, 0.0005, 0.01);
  const controller = (name: string) =>
    fc.record({
      name: fc.constant(name),
      per_round_ms: fc.constantFrom(0, 3.7),
      loop_ms: fc.constantFrom(0, 0.1),
    });
  const pace = fc.oneof(
    fc.record({ cycle_ms: fc.constantFrom(4, 15, 30, 61) }),
    fc.record({ wait_ms: fc.constantFrom(0, 5, 20) }),
  );
  const house: fc.Arbitrary<House> = fc
    .record({
      one: fc.tuple(controller('one'), pace),
      two: fc.tuple(controller('two'), pace),
      doors: fc.array(fc.record({ controller: fc.constantFrom('one', 'two'), beams: fc.integer({ min: 1, max: 3 }) }), {
        minLength: 1,
        maxLength: 3,
      }),
      stray_share: share,
      dropout_share: share,
      // At 60 mm the margin is 2.5 standard deviations away: now and then an idle reading breaks the beam.
      sd_m: fc.constantFrom(0, 0.002, 0.06),
      early_us: fc.constantFrom(-70_000, 0, 16_000),
      switching: fc.record({
        median_of: fc.constantFrom(1, 3),
        minimum_samples: fc.integer({ min: 1, max: 3 }),
        off_delay_ms: fc.constantFrom(0, 40, 333),
        no_echo: fc.constantFrom('clear', 'broken', 'keep'),
        learn_readings: fc.integer({ min: 1, max: 20 }),
        follow_um: fc.constantFrom(0, 20, 3000),
      }),
      guests: fc.array(
        fc.tuple(fc.nat(110), fc.integer({ min: 1, max: 4000 }), fc.double({ min: 0.05, max: 1, noNaN: true })),
        { maxLength: 6 },
      ),
      seed: fc.string(),
    })
    .map(({ one, two, doors, guests, stray_share, dropout_share, switching, ...rest }) => ({
      ...rest,
      controllers: [
        { ...one[0], ...one[1] },
        { ...two[0], ...two[1] },
      ],
      doors,
      sensor: { stray_share, dropout_share, switching },
      guests: doors.map((_, d) =>
        guests
          .filter((_guest, g) => g % doors.length === d)
          .map(([s, ms, seen_m]) => ({ start_us: s * SECOND, end_us: s * SECOND + ms * 1000, seen_m })),
      ),
      clock_us: 120 * SECOND,
    }));

  test('and what is told is, to the row, what reading every scan of it tells', () => {
    fc.assert(
      fc.property(house, (one) => {
        expect(rowsOf(one, true)).toEqual(rowsOf(one, false));
      }),
      { numRuns: howMany(40, 400) },
    );
  });

  test('strays come at their rate, however quiet it is', () => {
    const clock_us = 3600 * SECOND;
    const rows = rowsOf(
      {
        controllers: [{ name: 'main', cycle_ms: 30 }],
        doors: [{ controller: 'main', beams: 1 }],
        sensor: { stray_share: 0.002, switching: { follow_um: 0 } },
        clock_us,
      },
      true,
    );
    // Every stray is told, and so is the reading after it, which differs from it.
    const expected = 0.002 * (clock_us / 30_000);
    const strays = rows.filter(([what, , , , value]) => what === 'reading' && value !== 1_000_000).length;
    expect(Math.abs(strays - expected)).toBeLessThan(4 * Math.sqrt(expected));
  });
});
