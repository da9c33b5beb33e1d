import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Agenda } from '../../src/engine/agenda.js';
import { Clock } from '../../src/engine/clock.js';

fc.configureGlobal({ seed: 20, numRuns: 200 });

describe('Agenda', () => {
  test('gives back events by time, equal times in the order they were put', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -3, max: 3 }), { maxLength: 200 }), (times) => {
        const agenda = new Agenda<readonly [number, number]>();
        for (const [order, time] of times.entries()) agenda.put(time, [time, order]);
        const taken = times.map(() => agenda.take());
        const sorted = times.map((time, order) => [time, order] as const).sort(([t, i], [u, j]) => t - u || i - j);
        expect(taken).toEqual(sorted);
        expect(agenda.take()).toBeUndefined();
      }),
    );
  });

  test('agrees with a sorted list when puts and takes come mixed', () => {
    const command = fc.oneof(fc.constant('take' as const), fc.double({ min: 0, max: 10, noNaN: true }));
    fc.assert(
      fc.property(fc.array(command, { maxLength: 300 }), (commands) => {
        const agenda = new Agenda<number>();
        let list: { time: number; order: number }[] = [];
        commands.forEach((what, order) => {
          if (what === 'take') {
            const next = list[0];
            expect(agenda.peekTime()).toBe(next ? next.time : Infinity);
            expect(agenda.take()).toBe(next?.order);
            list = list.slice(1);
          } else {
            agenda.put(what, order);
            list = [...list, { time: what, order }].sort((a, b) => a.time - b.time || a.order - b.order);
          }
          expect(agenda.size).toBe(list.length);
        });
      }),
    );
  });

  test('keeps order when more wait than it had room for at first', () => {
    const agenda = new Agenda<number>();
    const times = Array.from({ length: 1000 }, (_, i) => (i * 37) % 101);
    for (const [order, time] of times.entries()) agenda.put(time, order);
    const sorted = times.map((time, order) => [time, order] as const).sort(([t, i], [u, j]) => t - u || i - j);
    for (const [time, order] of sorted) expect([agenda.peekTime(), agenda.take()]).toEqual([time, order]);
  });

  test('holds integer microseconds of a year exactly', () => {
    const agenda = new Agenda<string>();
    const year_us = 365 * 86_400_000_000;
    agenda.put(year_us + 1, 'after');
    agenda.put(year_us, 'at the end');
    expect([agenda.take(), agenda.peekTime()]).toEqual(['at the end', year_us + 1]);
  });

  test('refuses a time that is not a number', () => {
    expect(() => new Agenda<number>().put(Number.NaN, 1)).toThrow(RangeError);
  });
});

describe('Clock', () => {
  test('handles what handling puts, up to the end and no further', () => {
    const clock = new Clock<number>();
    const seen: [number, number][] = [];
    clock.at(1, 0);
    clock.run(3, (n, time) => {
      seen.push([n, time]);
      expect(clock.now).toBe(time);
      clock.at(time + 1, n + 1);
    });
    expect(seen).toEqual([
      [0, 1],
      [1, 2],
      [2, 3],
    ]);
    expect(clock.now).toBe(3);
    // What is put for later waits for the next run.
    clock.run(4, (n, time) => seen.push([n, time]));
    expect(seen.at(-1)).toEqual([3, 4]);
  });

  test('an event at the present comes after those already waiting for it', () => {
    const clock = new Clock<string>();
    const seen: string[] = [];
    clock.at(5, 'first');
    clock.at(5, 'second');
    clock.run(5, (item) => {
      seen.push(item);
      if (item === 'first') clock.at(5, 'put by first');
    });
    expect(seen).toEqual(['first', 'second', 'put by first']);
  });

  test('never runs backwards', () => {
    const clock = new Clock<number>(10);
    expect(() => clock.at(9.99, 1)).toThrow(RangeError);
    clock.run(4, () => {});
    expect(clock.now).toBe(10);
  });
});
