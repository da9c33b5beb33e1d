/** What may be typed for options of few values: read by the command, and offered by the tabulator key. */
export const DIRECTIONS = ['forward', 'backward'] as const;

/** What a number in a log's column of times may count. */
export const TIME_UNITS = ['s', 'ms', 'us'] as const;
export type TimeUnit = (typeof TIME_UNITS)[number];

/** What the best of a study's designs may have least of. */
export const LEAST = ['cost', 'holes', 'cable_m', 'hours'] as const;
export type Least = (typeof LEAST)[number];
