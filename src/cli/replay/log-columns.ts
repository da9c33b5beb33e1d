/** What the columns of a log mean, by the names in its first line. */
import { quote } from '../../engine/printable.js';
import { TIME_COLUMNS } from '../log-time.js';
import type { TimeUnit } from '../option-values.js';

export interface LogColumns {
  readonly time: number;
  /** What a bare number counts, microseconds. */
  readonly unit_us: number;
  /** Whether bare numbers are whole and may be of a counter with 32 bits. */
  readonly counter: boolean;
  readonly replicate: number;
  readonly door: number;
  readonly beam: number;
  /** Either may be there, or both: a row has what is not empty. */
  readonly level: number;
  readonly distance: number;
  /** Of a distance, micrometres. */
  readonly distance_um: number;
  /** Whether the first line is that of our own edges.csv or readings.csv. */
  readonly own: boolean;
}

/** Columns of times that may be those of a controller's own counter. */
const COUNTERS = ['time_us', 'time_ms'];
const DISTANCES: Readonly<Record<string, number>> = {
  distance_um: 1,
  distance_mm: 1000,
  distance_cm: 10_000,
  distance_m: 1_000_000,
};
const OWN = ['replicate,door,beam,time_us,level', 'replicate,door,beam,time_us,distance_um'];

/** @param unit what `time` counts where it is a bare number: s, ms or us @returns what is wrong, in words, instead of columns */
export function logColumns(header: readonly string[], unit: TimeUnit | undefined): LogColumns | string[] {
  const find = (names: Readonly<Record<string, unknown>>): string | undefined =>
    header.find((name) => Object.hasOwn(names, name));
  const time = find(TIME_COLUMNS);
  const distance = find(DISTANCES);
  const level = header.indexOf('level');
  const problems: string[] = [];
  const found =
    header.length === 0
      ? 'nothing'
      : header
          .slice(0, 8)
          .map((name) => quote(name))
          .join(', ');
  if (time === undefined) problems.push(`expected a column ${Object.keys(TIME_COLUMNS).join(', ')}; found ${found}`);
  if (!header.includes('beam')) problems.push(`expected a column beam; found ${found}`);
  if (level < 0 && distance === undefined)
    problems.push(`expected a column level (edges) or ${Object.keys(DISTANCES).join(', ')} (readings); found ${found}`);
  if (time === undefined || problems.length > 0) return problems;
  const meant = unit && time === 'time' ? `time_${unit}` : time;
  const own = OWN.includes(header.join(','));
  return {
    time: header.indexOf(time),
    unit_us: TIME_COLUMNS[meant]!,
    // Our own never turn.
    counter: COUNTERS.includes(meant) && !own,
    replicate: header.indexOf('replicate'),
    door: header.indexOf('door'),
    beam: header.indexOf('beam'),
    level,
    distance: distance === undefined ? -1 : header.indexOf(distance),
    distance_um: distance === undefined ? 1 : DISTANCES[distance]!,
    own,
  };
}
