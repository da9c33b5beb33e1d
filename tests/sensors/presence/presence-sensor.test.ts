import { describe, expect, test } from 'vitest';
import { Stream } from '../../../src/engine/stream.js';
import { MINUTE_US } from '../../../src/engine/time.js';
import { PresenceSensor } from '../../../src/sensors/presence/presence-sensor.js';

/** What it says over time: `[minute, occupied]` at each change. Persons as `[minute, persons]`. */
function said(
  settings: { miss_share: number; hold_min: number },
  persons: readonly (readonly [number, number])[],
  until_min: number,
  stream = Stream.root('sensor'),
): [number, boolean][] {
  const sensor = new PresenceSensor(settings, stream);
  const changes: [number, boolean][] = [];
  const note = (time_us: number) => {
    if ((changes.at(-1)?.[1] ?? false) !== sensor.occupied) changes.push([time_us / MINUTE_US, sensor.occupied]);
  };
  for (const [minute, count] of [...persons, [until_min, -1] as const]) {
    while (sensor.wake_us < minute * MINUTE_US) {
      const time_us = sensor.wake_us;
      sensor.wake();
      note(time_us);
    }
    if (count < 0) break;
    sensor.truth(minute * MINUTE_US, count);
    note(minute * MINUTE_US);
  }
  return changes;
}

describe('a presence sensor that misses nothing', () => {
  const sharp = { miss_share: 0, hold_min: 10 };

  test('says occupied from the moment somebody enters, and until the hold after it last looked', () => {
    // Entered at 5, looks at 15 and 25; left at 27: empty at 35.
    expect(
      said(
        sharp,
        [
          [5, 1],
          [27, 0],
        ],
        100,
      ),
    ).toEqual([
      [5, true],
      [35, false],
    ]);
  });

  test('looks anew whenever somebody joins', () => {
    expect(
      said(
        sharp,
        [
          [5, 1],
          [12, 2],
          [14, 0],
        ],
        100,
      ),
    ).toEqual([
      [5, true],
      [22, false],
    ]);
  });

  test('who stays exactly the hold is seen once more, who leaves at that instant is not', () => {
    expect(
      said(
        sharp,
        [
          [0, 1],
          [10.5, 0],
        ],
        100,
      ),
    ).toEqual([
      [0, true],
      [20, false],
    ]);
    expect(
      said(
        sharp,
        [
          [0, 1],
          [10, 0],
        ],
        100,
      ),
    ).toEqual([
      [0, true],
      [10, false],
    ]);
  });

  test('whose room is never entered says nothing', () => {
    expect(said(sharp, [[5, 0]], 100)).toEqual([]);
  });
});

describe('a presence sensor that misses', () => {
  test('everything says nothing', () => {
    expect(said({ miss_share: 1, hold_min: 1 }, [[0, 3]], 500)).toEqual([]);
  });

  test('says occupied for the share of time that it does not miss, while somebody stays', () => {
    // Each hold is one look: 4,000 independent ones. Standard error by the binomial law.
    const miss_share = 0.3;
    const looks = 4000;
    const changes = said({ miss_share, hold_min: 2 }, [[0, 1]], 2 * looks);
    const occupied = changes.reduce(
      (sum, [minute, on], i) => sum + (on ? (changes[i + 1]?.[0] ?? 2 * looks) - minute : 0),
      0,
    );
    const error = Math.abs(occupied / (2 * looks) - (1 - miss_share));
    expect(error).toBeLessThan(4 * Math.sqrt((miss_share * (1 - miss_share)) / looks));
    // Changes come at looks only, and no hold is cut short.
    for (const [minute] of changes) expect(minute % 2).toBe(0);
  });

  test('does the same again from the same stream', () => {
    const run = () =>
      said(
        { miss_share: 0.5, hold_min: 3 },
        [
          [0, 1],
          [40, 2],
          [60, 0],
        ],
        200,
      );
    expect(run()).toEqual(run());
  });
});
