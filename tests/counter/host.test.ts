import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DoorHost, LogicHost, hostOf } from '../../src/counter/host.js';
import { holdOff } from '../../src/counter/hold-off.js';
import { LogicError } from '../../src/counter/host-check.js';
import { fourLevel } from '../../src/counter/four-level.js';
import { levelsOf } from '../../src/counter/levels.js';
import type { Logic, LogicInput, LogicStep, Readings } from '../../src/counter/logic.js';

/** A logic that writes down what it is given and answers with `answer`. */
function listener(answer: (input: LogicInput) => unknown): { logic: Logic; heard: string[] } {
  const heard: string[] = [];
  const logic: Logic = {
    name: 'listener',
    latency_us: 0,
    beams: 2,
    defeated_by: 'Nothing.',
    initial: () => null,
    label: () => 'listening',
    step: (_state, input) => {
      heard.push(`${input.time_us} ${input.levels.join('')}`);
      return answer(input) as LogicStep<unknown>;
    },
  };
  return { logic, heard };
}

const still = { state: null, tallies: [] };

describe('wakes', () => {
  test('come before a later input, with the levels as they were', () => {
    const { logic, heard } = listener(({ time_us }) => (time_us === 10 ? { ...still, wake_us: 15 } : still));
    const host = new LogicHost(logic, { onTally: () => undefined });
    host.inputMask(10, 1);
    host.inputMask(20, 3);
    expect(heard).toEqual(['10 10', '15 10', '20 11']);
  });

  test('due at an input give way to it', () => {
    const { logic, heard } = listener(({ time_us }) => (time_us === 10 ? { ...still, wake_us: 20 } : still));
    const host = new LogicHost(logic, { onTally: () => undefined });
    host.inputMask(10, 1);
    host.inputMask(20, 3);
    host.finish(100);
    expect(heard).toEqual(['10 10', '20 11']);
  });

  test('are replaced by the next wish and cancelled by none', () => {
    const { logic, heard } = listener(({ time_us }) => (time_us < 30 ? { ...still, wake_us: time_us + 50 } : still));
    const host = new LogicHost(logic, { onTally: () => undefined });
    host.inputMask(10, 1);
    host.inputMask(20, 3);
    host.inputMask(40, 2);
    host.finish(1000);
    expect(heard).toEqual(['10 10', '20 11', '40 01']);
  });

  test('follow one another until the end, the end included', () => {
    const { logic, heard } = listener(({ time_us }) => ({ ...still, wake_us: time_us + 10 }));
    const host = new LogicHost(logic, { onTally: () => undefined });
    host.input(0, levelsOf(2, 2));
    host.finish(30);
    expect(heard).toEqual(['0 01', '10 01', '20 01', '30 01']);
  });

  test('without end are an error, not a hang', () => {
    const restless: Logic = {
      ...fourLevel({ timeout_ms: 1000 }),
      initial: () => null,
      step: (state, { time_us }) => ({ state, tallies: still.tallies, wake_us: time_us + 1 }),
      label: () => 'restless',
    };
    const host = new LogicHost(restless, { onTally: () => undefined });
    host.inputMask(0, 1);
    expect(() => host.finish(Number.MAX_SAFE_INTEGER)).toThrow(/never comes to rest/);
  });
});

describe('what a logic gives back is checked', () => {
  const faults: [string, unknown, RegExp][] = [
    ['nothing', undefined, /must return an object/],
    ['tallies that are no list', { state: 1, tallies: 'forward' }, /tallies must be a list, got "forward"/],
    ['a direction nobody knows', { state: 1, tallies: ['in'] }, /"forward" or "backward", got "in"/],
    ['a thousand tallies', { state: 1, tallies: Array.from({ length: 1000 }, () => 'forward') }, /at most 100/],
    ['a wake in the past', { ...still, wake_us: 10 }, /later than the input, got 10/],
    ['a wake between microseconds', { ...still, wake_us: 10.5 }, /whole number/],
    ['a wake that is no number', { ...still, wake_us: 'soon' }, /whole number of microseconds, got "soon"/],
    ['a wake too far ahead', { ...still, wake_us: 10 + 2 ** 31 }, /less than 2\^31/],
  ];
  test.each(faults)('%s', (_what, answer, message) => {
    const host = new LogicHost(listener(() => answer).logic, { onTally: () => undefined });
    expect(() => host.inputMask(10, 1)).toThrow(message);
    expect(() => host.inputMask(10, 1)).toThrow(LogicError);
  });

  test('tallies that no input explains: a thousand are let pass, no more', () => {
    const { logic } = listener(({ time_us }) => ({ state: 1, tallies: ['forward'], wake_us: time_us + 1000 }));
    let tallies = 0;
    const host = new LogicHost(logic, { onTally: () => void tallies++ });
    host.inputMask(10, 1);
    expect(() => host.finish(60_000_000)).toThrow(/over 1000 more tallies than inputs/);
    expect(tallies).toBe(1001);
  });

  test('the longest wake allowed is just below 2^31 µs', () => {
    const { logic } = listener(({ time_us }) => (time_us === 10 ? { ...still, wake_us: 9 + 2 ** 31 } : still));
    expect(() => new LogicHost(logic, { onTally: () => undefined }).inputMask(10, 1)).not.toThrow();
  });
});

describe('what the host is given is checked', () => {
  const host = (): LogicHost => new LogicHost(fourLevel({ timeout_ms: 1000 }), { onTally: () => undefined });

  test('time never runs backwards, nor between microseconds', () => {
    const running = host();
    running.inputMask(10, 1);
    expect(() => running.inputMask(9, 3)).toThrow(/cannot follow/);
    expect(() => running.inputMask(11.5, 3)).toThrow(RangeError);
  });

  test('there is one level for each beam', () => {
    expect(() => host().input(0, [1])).toThrow(/expects 2 beams, got 1/);
    expect(() => host().inputMask(0, 4)).toThrow(/mask 4/);
  });
});

describe('starting anew', () => {
  test('forgets a walk half seen and the timeout that was due', () => {
    const tallies: string[] = [];
    const host = new LogicHost(fourLevel({ timeout_ms: 1000 }), { onTally: (_time, way) => tallies.push(way) });
    host.inputMask(0, 1);
    host.inputMask(100_000, 3);
    host.reset(150_000, 0);
    host.inputMask(200_000, 2);
    host.inputMask(300_000, 0);
    host.finish(10_000_000);
    expect(tallies).toEqual([]);
  });

  test('is told of broken beams at once, and of nothing while all are clear', () => {
    const { logic, heard } = listener(({ time_us }) => (time_us === 10 ? { ...still, wake_us: 15 } : still));
    const host = new LogicHost(logic, { onTally: () => undefined });
    host.inputMask(10, 1);
    host.reset(12, 0);
    host.finish(30);
    host.reset(40, 2);
    expect(heard).toEqual(['10 10', '40 01']);
    expect(() => host.reset(39, 1)).toThrow(/cannot follow/);
  });
});

test('a trace tells the story of a walk, timeout included', () => {
  const story: string[] = [];
  const host = new LogicHost(fourLevel({ timeout_ms: 1000 }), {
    onTally: (time_us, direction) => story.push(`${time_us}: ${direction}`),
    trace: ({ time_us, levels, label, wake }) =>
      story.push(`${time_us} ${levels.join('')} ${label}${wake ? ' (wake)' : ''}`),
  });
  for (const [i, mask] of [1, 3, 2, 0, 2].entries()) host.inputMask(i * 100_000, mask);
  host.finish(2_000_000);
  expect(story).toEqual([
    '0 10 forward 1/4',
    '100000 11 forward 2/4',
    '200000 01 forward 3/4',
    '300000: forward',
    '300000 00 rest',
    '400000 01 backward 1/4',
    '1400000 01 lost (wake)',
  ]);
});

test('levels by mask are shared and frozen', () => {
  expect(levelsOf(1, 2)).toEqual([1, 0]);
  expect(levelsOf(1, 2)).toBe(levelsOf(1, 2));
  expect(Object.isFrozen(levelsOf(6, 3))).toBe(true);
  expect(() => levelsOf(0, 9)).toThrow(RangeError);
});

describe('snapshots', () => {
  // Whoever asks why a visit went wrong goes on from where the logic truly stood, again and again.
  test('a host that goes on from a snapshot tallies as the first one does', () => {
    const bits = fc.array(fc.tuple(fc.integer({ min: 1, max: 5_000_000 }), fc.integer({ min: 0, max: 3 })), {
      minLength: 2,
      maxLength: 40,
    });
    fc.assert(
      fc.property(bits, fc.nat(), (steps, cut) => {
        const at = cut % steps.length;
        const logic = holdOff({ timeout_ms: 4000, hold_off_ms: 600 });
        const whole: number[] = [];
        const first = hostOf(logic, { onTally: (time) => whole.push(time) });
        let time = 0;
        let rest: { again: number[]; host: DoorHost; from: number } | null = null;
        for (const [i, [gap, mask]] of steps.entries()) {
          if (i === at) {
            const again: number[] = [];
            rest = {
              again,
              host: hostOf(logic, { onTally: (when) => again.push(when) }, first.snapshot()),
              from: whole.length,
            };
          }
          time += gap;
          first.inputMask(time, mask);
          rest?.host.inputMask(time, mask);
        }
        first.finish(time + 10_000_000);
        rest?.host.finish(time + 10_000_000);
        expect(rest?.again).toEqual(whole.slice(rest?.from));
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  test('a snapshot says whether the logic is at rest', () => {
    const host = hostOf(holdOff({ timeout_ms: 4000, hold_off_ms: 600 }), { onTally: () => undefined });
    expect(host.snapshot()).toMatchObject({ label: 'rest', resting: true });
    host.inputMask(1000, 1);
    expect(host.snapshot()).toMatchObject({ label: 'A first', resting: false });
  });
});

describe('readings', () => {
  const watcher = (readings: boolean, seen: (Readings | undefined)[]): Logic<number> => ({
    name: 'watcher',
    latency_us: 0,
    beams: 2,
    readings,
    defeated_by: 'Nothing: it counts nothing.',
    initial: () => 0,
    step: (state, input) => {
      seen.push(input.readings);
      return { state, tallies: [] };
    },
    label: String,
  });

  test('a logic that asks for them has the last of every beam at each input, and none before the first', () => {
    const seen: (Readings | undefined)[] = [];
    const host = hostOf(watcher(true, seen), { onTally: () => undefined });
    host.inputMask(1, 1);
    host.inputMask(2, 1, [900_000, null]);
    host.inputMask(3, 0);
    host.reset(4, 1);
    expect(seen).toEqual([
      [null, null],
      [900_000, null],
      [900_000, null],
      [null, null],
    ]);
  });

  test('one that does not ask is not told', () => {
    const seen: (Readings | undefined)[] = [];
    hostOf(watcher(false, seen), { onTally: () => undefined }).inputMask(2, 1, [900_000, null]);
    expect(seen).toEqual([undefined]);
  });
});
