/** People through a door by clock time and day of the week: so that a night, a way to school and a party show. */
import { DAY_H, HOUR_US, WEEK_H } from '../engine/time.js';
import type { HourlyCounts } from './figures.js';

/** True crossings of one door in one replicate: memory is one cell for each hour of a week and direction. */
export class HourlyTrack {
  readonly forward: number[] = Array.from({ length: WEEK_H }, () => 0);
  readonly backward: number[] = Array.from({ length: WEEK_H }, () => 0);
  private readonly start_us: number;

  /**
   * @param span_us length of the clock, microseconds; who crosses after it counts for nothing
   * @param starts_at_h clock time at its start, hours since midnight
   * @param first_day day of the week at its start, 0 to 6; what day 0 is called is the caller's
   */
  constructor(
    private readonly span_us: number,
    starts_at_h: number,
    first_day = 0,
  ) {
    this.start_us = Math.round((first_day * DAY_H + starts_at_h) * HOUR_US);
  }

  crossed(time_us: number, forward: boolean, persons: number): void {
    if (time_us >= this.span_us) return;
    const cells = forward ? this.forward : this.backward;
    const cell = Math.floor((this.start_us + time_us) / HOUR_US) % WEEK_H;
    cells[cell] = cells[cell]! + persons;
  }
}

/** How much of each hour of a week a clock covers, hours. */
export function hoursCovered(span_us: number, starts_at_h: number, first_day = 0): number[] {
  const start_us = Math.round((first_day * DAY_H + starts_at_h) * HOUR_US);
  const end_us = start_us + span_us;
  const first = Math.floor(start_us / HOUR_US);
  const covered = Array.from({ length: WEEK_H }, () => 0);
  for (let hour = first; hour * HOUR_US < end_us; hour++) {
    const part_us = Math.min(end_us, (hour + 1) * HOUR_US) - Math.max(start_us, hour * HOUR_US);
    covered[hour % WEEK_H]! += part_us / HOUR_US;
  }
  return covered;
}

/** Sums over replicates for the hours of a week that the clock covers at all. */
export function hourlyCounts(
  door: string,
  covered: readonly number[],
  replicates: readonly Pick<HourlyTrack, 'forward' | 'backward'>[],
): HourlyCounts {
  const cells = covered.flatMap((h, cell) => (h > 0 ? [cell] : []));
  const sums = (which: 'forward' | 'backward') =>
    cells.map((cell) => replicates.reduce((sum, track) => sum + track[which][cell]!, 0));
  return {
    door,
    day: cells.map((cell) => Math.floor(cell / DAY_H)),
    hour: cells.map((cell) => cell % DAY_H),
    forward: sums('forward'),
    backward: sums('backward'),
    covered_h: cells.map((cell) => covered[cell]! * replicates.length),
  };
}
