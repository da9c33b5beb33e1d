/** Days and hours of a clock that starts anywhere in the week: spans over midnight, weekdays, times before the start. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Calendar, spanHours } from '../../../src/agents/household/calendar.js';
import { WEEKDAYS } from '../../../src/agents/household/schema.js';
import { DAY_US, HOUR_US } from '../../../src/engine/time.js';

describe('a clock that starts on Saturday at 22:00', () => {
  const calendar = new Calendar(22, 'saturday');

  test('two hours later it is Sunday, and two days later Monday', () => {
    expect(calendar.dayOf(0)).toBe(0);
    expect(calendar.dayOf(2 * HOUR_US - 1)).toBe(0);
    expect(calendar.dayOf(2 * HOUR_US)).toBe(1);
    expect([0, 1, 2, 7, 8, -1].map((day) => WEEKDAYS[calendar.weekdayOf(day)])).toEqual([
      'saturday',
      'sunday',
      'monday',
      'saturday',
      'sunday',
      'friday',
    ]);
  });

  test('the hour of the day runs from 0 up to 24 and begins again', () => {
    expect(calendar.hourOf(0)).toBe(22);
    expect(calendar.hourOf(HOUR_US)).toBe(23);
    expect(calendar.hourOf(2 * HOUR_US)).toBe(0);
    expect(calendar.hourOf(9.5 * HOUR_US)).toBe(7.5);
  });

  test('what was to be at 21:00 lies before the start; an hour past midnight is tomorrow', () => {
    expect(calendar.atClock(0, '21:00')).toBe(-HOUR_US);
    expect(calendar.at(0, 25)).toBe(calendar.atClock(1, '01:00'));
    expect(calendar.at(1, -1)).toBe(calendar.atClock(0, '23:00'));
  });

  test('workdays, weekends, and days by name', () => {
    const days = [0, 1, 2, 3, 4, 5, 6];
    const on = (what: Parameters<Calendar['falls']>[1]) => days.filter((day) => calendar.falls(day, what));
    expect(on('every-day')).toEqual(days);
    expect(on('weekend')).toEqual([0, 1]);
    expect(on('workdays')).toEqual([2, 3, 4, 5, 6]);
    expect(on(['friday', 'sunday'])).toEqual([1, 6]);
  });
});

test('a span ends after it begins: over midnight if need be, a whole day where both are the same', () => {
  expect(spanHours('08:00', '17:30')).toBe(9.5);
  expect(spanHours('22:45', '06:45')).toBe(8);
  expect(spanHours('00:00', '00:00')).toBe(24);
  expect(spanHours('23:59', '00:00')).toBeCloseTo(1 / 60, 12);
});

test('from any start, day and hour give the moment back, and a week later it is the same weekday', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 24 * 60 - 1 }),
      fc.constantFrom(...WEEKDAYS),
      fc.integer({ min: -2 * DAY_US, max: 60 * DAY_US }),
      (minute, weekday, time_us) => {
        const calendar = new Calendar(minute / 60, weekday);
        const [day, hour] = [calendar.dayOf(time_us), calendar.hourOf(time_us)];
        expect(hour).toBeGreaterThanOrEqual(0);
        expect(hour).toBeLessThan(24);
        // A millisecond of rounding in hours.
        expect(Math.abs(calendar.at(day, hour) - time_us)).toBeLessThan(1000);
        expect(calendar.weekdayOf(calendar.dayOf(time_us + 7 * DAY_US))).toBe(calendar.weekdayOf(day));
      },
    ),
    { seed: 5, numRuns: 200 },
  );
});
