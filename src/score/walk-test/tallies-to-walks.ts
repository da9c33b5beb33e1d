/** Which tallies of a controller's log belong to which walk of a sheet, by the clock. */
import type { Direction } from '../../counter/logic.js';
import { SECOND_US } from '../../engine/time.js';
import type { BothWays } from './rows.js';

export interface TimedTally {
  readonly time_us: number;
  readonly direction: Direction;
}

export interface TimedWalk {
  readonly start_us: number;
  /** Null: it lasts until the next one starts, {@link LONGEST_US} at most. */
  readonly end_us: number | null;
}

/** Clocks are read to the second, before and after. */
export const SLACK_US = 2 * SECOND_US;
/** A walk of which only the start is known. */
export const LONGEST_US = 60 * SECOND_US;

/**
 * A tally belongs to the last walk that had started, if it comes before that walk's end, with some slack and the logic's
 * latency; otherwise to one that starts within the slack. Others are of no walk.
 *
 * @param walks in any order; none overlaps another
 * @param latency_us how long after a walk its tally may come, microseconds
 */
export function talliesToWalks(
  walks: readonly TimedWalk[],
  tallies: readonly TimedTally[],
  latency_us: number,
): { readonly counted: readonly BothWays[]; readonly of_no_walk: number } {
  const order = walks.map((_, i) => i).sort((a, b) => walks[a]!.start_us - walks[b]!.start_us);
  const counted = walks.map(() => ({ forward: 0, backward: 0 }));
  let of_no_walk = 0;
  for (const { time_us, direction } of tallies) {
    let last = -1;
    while (last + 1 < order.length && walks[order[last + 1]!]!.start_us <= time_us) last++;
    const current = walks[order[last]!];
    const next = walks[order[last + 1]!];
    const within = current !== undefined && time_us <= endOf(current) + SLACK_US + latency_us;
    const soon = next !== undefined && next.start_us - time_us <= SLACK_US;
    const owner = within ? order[last]! : soon ? order[last + 1]! : -1;
    if (owner < 0) of_no_walk++;
    else counted[owner]![direction]++;
  }
  return { counted, of_no_walk };
}

function endOf({ start_us, end_us }: TimedWalk): number {
  return end_us ?? start_us + LONGEST_US;
}
