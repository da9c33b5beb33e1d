/** Simulated time is counted in whole microseconds; these are the longer units in it, and the clock times a user writes. */
export const SECOND_US = 1_000_000;
export const MINUTE_US = 60 * SECOND_US;
export const HOUR_US = 60 * MINUTE_US;
export const DAY_US = 24 * HOUR_US;
/** 365 days: no clock of a scenario is longer. */
export const YEAR_US = 365 * DAY_US;
export const DAY_H = 24;
export const WEEK_H = 7 * DAY_H;

/** Hours since midnight that a clock time, `HH:MM`, stands for. */
export function clockHours(clock: string): number {
  return Number(clock.slice(0, 2)) + Number(clock.slice(3, 5)) / 60;
}
