/** What each setting of switching does to readings, in millimetres, 10 ms apart. */
import { expect, test } from 'vitest';
import { NO_ECHO } from '../../../src/sensors/ranger.js';
import { FARTHEST_UM, levels, switchWith, um } from './readings.js';

test('nearer_than_m: broken from the first reading nearer than it, clear at it', () => {
  const fixed = switchWith({ nearer_than_m: 0.5, hysteresis_m: 0 });
  expect(levels(fixed, [499, 500, 499, 900])).toBe('1010');
});

test('hysteresis_m: a broken beam is clear only from so far beyond the point; a clear one stays clear in between', () => {
  const fixed = switchWith({ nearer_than_m: 0.5, hysteresis_m: 0.03 });
  expect(levels(fixed, [510, 499, 510, 529, 530, 510, 499])).toBe('0111001');
});

test('without nearer_than_m the first readings are learnt, and nothing breaks before', () => {
  const learns = switchWith({ learn_readings: 5, margin_m: 0.15, follow_um: 0 });
  // The last of the five is still learnt from; somebody walking through does not move a median.
  expect(levels(learns, [100, 800, 801, 799, 100])).toBe('00000');
  expect(learns.background_um).toBe(799_000);
  expect(levels(learns, [650, 649, 648])).toBe('001');
});

test('without echo the idle door counts as the farthest reading while it is learnt', () => {
  for (const no_echo of ['clear', 'broken', 'keep']) {
    const far = switchWith({ learn_readings: 3, no_echo, follow_um: 0 });
    expect(levels(far, [null, 500, null])).toBe('000');
    expect(far.background_um).toBe(FARTHEST_UM);
  }
});

test('follow_um: the background creeps after clear readings, not while broken, and stops where they are', () => {
  const follows = switchWith({ learn_readings: 1, margin_m: 0.1, follow_um: 400 });
  levels(follows, [800, 801]);
  expect(follows.background_um).toBe(800_400);
  levels(follows, [801, 801, 801]);
  expect(follows.background_um).toBe(801_000);
  expect(levels(follows, [300, 300, 300])).toBe('111');
  expect(follows.background_um).toBe(801_000);
  levels(follows, [750, 750]);
  expect(follows.background_um).toBe(800_200);
});

test('a door that warms up slowly is followed; the same drift breaks a beam that does not follow', () => {
  // Sound is some 0.17 % faster per kelvin, and distances come out as much shorter: 1 m loses 1.7 mm (derived from
  // speed ~ sqrt(absolute temperature) at 20 °C). Here 10 mm of margin against 18 mm in 900 readings.
  const drifting = Array.from({ length: 900 }, (_, reading) => 1000 - 0.02 * reading);
  const [following, fixed] = [20, 0].map((follow_um) =>
    levels(switchWith({ learn_readings: 1, margin_m: 0.01, follow_um }), drifting),
  );
  expect(following).not.toContain('1');
  expect(fixed!.indexOf('1')).toBe(501);
});

test('median_of: one stray in three readings does not break, two do; one clear one does not clear', () => {
  const median = switchWith({ nearer_than_m: 0.5, median_of: 3 });
  expect(levels(median, [900, 900, 300, 900, 900, 300, 300, 900, 300, 900, 900])).toBe('00000011100');
});

test('median_of: at the start the median is that of what came so far', () => {
  expect(levels(switchWith({ nearer_than_m: 0.5, median_of: 5 }), [300])).toBe('1');
  // Of two, the further one.
  expect(levels(switchWith({ nearer_than_m: 0.5, median_of: 5 }), [900, 300, 300])).toBe('001');
});

test('minimum_samples: so many in a row, and any clear one starts the count again', () => {
  const patient = switchWith({ nearer_than_m: 0.5, minimum_samples: 3 });
  expect(levels(patient, [300, 300, 900, 300, 300, 300, 900, 300])).toBe('00000100');
});

test('off_delay_ms: clear only once readings were clear for so long, and a near one starts it again', () => {
  const slow = switchWith({ nearer_than_m: 0.5, off_delay_ms: 25 });
  // Clear from the reading at 10 ms, near again at 30 ms, clear from 40 ms on: 25 ms are over at the reading at 70 ms.
  expect(levels(slow, [300, 900, 900, 300, 900, 900, 900, 900])).toBe('11111110');
});

test('off_delay_ms: a delay of just the time between readings is over at the second', () => {
  expect(levels(switchWith({ nearer_than_m: 0.5, off_delay_ms: 10 }), [300, 900, 900])).toBe('110');
  expect(levels(switchWith({ nearer_than_m: 0.5, off_delay_ms: 10.001 }), [300, 900, 900, 900])).toBe('1110');
});

test('no_echo: clear, broken, or as if it had not been taken', () => {
  const of = (no_echo: string) =>
    levels(switchWith({ nearer_than_m: 0.5, no_echo }), [900, null, 300, null, null, 900, null]);
  expect(of('clear')).toBe('0010000');
  expect(of('broken')).toBe('0111101');
  expect(of('keep')).toBe('0011100');
});

test('no_echo among the readings of a median: furthest, nearest, or left out', () => {
  const of = (no_echo: string) =>
    levels(switchWith({ nearer_than_m: 0.5, no_echo, median_of: 3 }), [900, 900, 300, null, null, 300]);
  expect(of('clear')).toBe('000000');
  expect(of('broken')).toBe('000111');
  expect(of('keep')).toBe('000001');
});

test('no_echo clear is beyond a switching point that no reading reaches', () => {
  const beyond = switchWith({ nearer_than_m: 20, hysteresis_m: 5 });
  expect(levels(beyond, [3999, null])).toBe('10');
  const wide = switchWith({ learn_readings: 1, margin_m: 0.05, hysteresis_m: 1, follow_um: 0 });
  expect(levels(wide, [null, 300, null])).toBe('010');
});

test('no_echo keep neither adds to a run of samples nor ends it', () => {
  const patient = switchWith({ nearer_than_m: 0.5, minimum_samples: 2, no_echo: 'keep' });
  expect(levels(patient, [300, null, null, 300])).toBe('0001');
});

test('no_echo broken does not draw the background to itself', () => {
  const waits = switchWith({ learn_readings: 1, no_echo: 'broken', minimum_samples: 9, follow_um: 1000 });
  levels(waits, [800, null, null]);
  expect(waits.background_um).toBe(800_000);
});

test('near at rest is what a first reading would break', () => {
  for (const no_echo of ['clear', 'broken', 'keep']) {
    for (const settings of [{ nearer_than_m: 0.5 }, { learn_readings: 1, margin_m: 0.15 }]) {
      for (const mm of [null, 0, 499, 500, 649, 650, 651, 3000]) {
        const rests = switchWith({ ...settings, no_echo });
        levels(rests, [800]);
        const near = rests.nearAtRest(um(mm), rests.background_um);
        expect(levels(rests, [mm]), `${no_echo} ${mm}`).toBe(near ? '1' : '0');
      }
    }
  }
});

test('what changes inside is said, and what does not', () => {
  const tells = switchWith({ learn_readings: 2, median_of: 3, off_delay_ms: 25, follow_um: 100, no_echo: 'keep' });
  let time_us = 0;
  const changed = (...readings: (number | null)[]) => readings.map((mm) => tells.reading((time_us += 10_000), um(mm)));
  expect(changed(800, 800)).toEqual([true, true]); // learning
  expect(changed(800)).toEqual([true]); // the window is full only now
  expect(changed(800, 800)).toEqual([false, false]);
  expect(changed(null)).toEqual([false]);
  expect(changed(300)).toEqual([true]); // the window, and the background creeps: the beam is still clear
  expect(tells.level).toBe(0);
  expect(changed(300, 300)).toEqual([true, true]);
  expect(changed(300)).toEqual([false]);
  expect(changed(800, 800)).toEqual([true, true]); // a switch-off is pending from the second one on
  expect(tells.level).toBe(1);
  expect(changed(800, 800)).toEqual([true, true]);
  expect(tells.level).toBe(1);
  expect(changed(800)).toEqual([true]);
  expect(tells.level).toBe(0);
  expect(changed(800)).toEqual([false]);
  expect(tells.background_um).toBe(800_000);
  expect(tells.reading(time_us + 3_600_000_000, NO_ECHO)).toBe(false);
});
