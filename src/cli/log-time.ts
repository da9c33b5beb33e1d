/** A time as somebody or something wrote it down: seconds, a time of day, or a date with its time (ISO 8601). */
import { SECOND_US, DAY_US } from '../engine/time.js';
import { NUMBER } from '../fitting/csv-records.js';

const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,6}))?)?$/;
const MOMENT = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?(Z|[+-]\d{2}:?\d{2})?$/i;

/** Names of a column of times, and what a bare number in it counts, microseconds. */
export const TIME_COLUMNS: Readonly<Record<string, number>> = {
  time_us: 1,
  time_ms: 1000,
  time_s: SECOND_US,
  time: SECOND_US,
};

export interface LogTime {
  /** `seconds` since anything, a time of day on the `clock`, a `moment` of the calendar. */
  readonly sort: 'seconds' | 'clock' | 'moment';
  readonly time_us: number;
}

/** What can be written, for who wrote something else. */
export const TIMES = 'seconds (12.5), a time of day (19:04:07) or a date with its time (2025-01-31T19:04:07)';

/** @param unit_us what a bare number counts, microseconds; @returns null for what is no time */
export function logTime(text: string, unit_us = SECOND_US): LogTime | null {
  if (NUMBER.test(text)) {
    const time_us = Math.round(Number(text) * unit_us);
    return Number.isSafeInteger(time_us) ? { sort: 'seconds', time_us } : null;
  }
  const clock = CLOCK.exec(text);
  if (clock) {
    const [, hours, minutes, seconds = '0', fraction = ''] = clock;
    return dayTime(Number(hours), Number(minutes), Number(seconds), fraction);
  }
  const moment = MOMENT.exec(text);
  if (!moment) return null;
  const [, day, hours, minutes, seconds = '0', fraction = '', zone] = moment;
  const time = dayTime(Number(hours), Number(minutes), Number(seconds), fraction);
  // Without a zone every time is on one clock, whichever it is.
  const midnight = Date.parse(`${day}T00:00:00Z`);
  if (time === null || Number.isNaN(midnight) || new Date(midnight).toISOString().slice(0, 10) !== day) return null;
  return { sort: 'moment', time_us: midnight * 1000 + time.time_us - zoneOf_us(zone) };
}

function dayTime(hours: number, minutes: number, seconds: number, fraction: string): LogTime | null {
  if (hours > 23 || minutes > 59 || seconds > 59) return null;
  const whole = (hours * 60 + minutes) * 60 + seconds;
  return { sort: 'clock', time_us: whole * SECOND_US + Number(fraction.slice(0, 6).padEnd(6, '0')) };
}

function zoneOf_us(zone: string | undefined): number {
  if (zone === undefined || zone.toUpperCase() === 'Z') return 0;
  const minutes = Number(zone.slice(1, 3)) * 60 + Number(zone.slice(-2));
  return (zone.startsWith('-') ? -1 : 1) * minutes * 60 * SECOND_US;
}

/** The time of day of a moment, on the clock it was written by. */
export function onTheClock_us(moment_us: number): number {
  return ((moment_us % DAY_US) + DAY_US) % DAY_US;
}
