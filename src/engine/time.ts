/** Simulated time is counted in whole microseconds; these are the longer units in it. */
export const SECOND_US = 1_000_000;
export const MINUTE_US = 60 * SECOND_US;
export const HOUR_US = 60 * MINUTE_US;
export const DAY_US = 24 * HOUR_US;
/** 365 days: no clock of a scenario is longer. */
export const YEAR_US = 365 * DAY_US;
export const DAY_H = 24;
export const WEEK_H = 7 * DAY_H;
