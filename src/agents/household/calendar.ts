/** Days, weekdays and times of day of a clock that starts at some hour of some weekday. */
import { DAY_US, HOUR_US, clockHours } from '../../engine/time.js';
import { type Days, WEEKDAYS, type Weekday } from './schema.js';

export class Calendar {
  /** Microseconds from midnight to the clock's start. */
  private readonly start_us: number;
  private readonly startDay: number;

  constructor(starts_at_h: number, starts_on: Weekday) {
    this.start_us = Math.round(starts_at_h * HOUR_US);
    this.startDay = WEEKDAYS.indexOf(starts_on);
  }

  /** Number of the day a moment falls in; the clock starts in day 0. */
  dayOf(time_us: number): number {
    return Math.floor((time_us + this.start_us) / DAY_US);
  }

  /** Hours since midnight, from 0 up to 24. */
  hourOf(time_us: number): number {
    return (time_us + this.start_us - this.dayOf(time_us) * DAY_US) / HOUR_US;
  }

  /** The moment a day's clock shows so many hours, which may be below 0 or above 24; may be before the start. */
  at(day: number, clock_h: number): number {
    return Math.round(day * DAY_US + clock_h * HOUR_US) - this.start_us;
  }

  /** The same from `HH:MM`. */
  atClock(day: number, clock: string): number {
    return this.at(day, clockHours(clock));
  }

  /** When a span between two clock times that begins on a day is over; it may be the day after. */
  endOf(day: number, from: string, to: string): number {
    return this.at(day, clockHours(from) + spanHours(from, to));
  }

  /** 0 for Monday. */
  weekdayOf(day: number): number {
    return (((day + this.startDay) % 7) + 7) % 7;
  }

  falls(day: number, days: Days): boolean {
    const weekday = this.weekdayOf(day);
    if (days === 'every-day') return true;
    if (days === 'workdays') return weekday < 5;
    if (days === 'weekend') return weekday >= 5;
    return days.includes(WEEKDAYS[weekday] as Weekday);
  }
}

/** Length of a span between two clock times, hours: over midnight where the second is earlier; a whole day where they are the same. */
export function spanHours(from: string, to: string): number {
  const length = clockHours(to) - clockHours(from);
  return length > 0 ? length : length + 24;
}
