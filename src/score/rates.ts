/** The rates a door, or the house, is judged by, over replicates. */
import { addCase, type CaseCounts, type DoorCounts, sumCases, wrongOf } from './door-counts.js';
import { ratioEstimate, sum, zeroEstimate } from './estimates.js';
import type { DoorMetrics, Estimate } from './metrics-schema.js';
import { spreadEstimate } from './spread.js';

/** The part of {@link DoorCounts} that doors can be pooled by. */
export type RateCounts = Pick<DoorCounts, 'total' | 'tallies' | 'net_error' | 'windows'>;

export type Rates = Pick<
  DoorMetrics,
  | 'visits'
  | 'person_crossings'
  | 'tallies'
  | 'wrong_per_100'
  | 'missed_per_100'
  | 'extra_per_100'
  | 'reversed_per_100'
  | 'invented_per_100'
  | 'invented_per_hour'
  | 'drift_per_100'
>;

const NO_CROSSINGS = 'no crossings';

/** All rates from one entry per replicate, each `hours` long. */
export function rates(replicates: readonly RateCounts[], hours: number): Rates {
  const crossings = replicates.map(({ total }) => total.crossings);
  const per100 = (events: (counts: CaseCounts) => number): Estimate =>
    ratioEstimate(
      replicates.map(({ total }) => events(total)),
      crossings,
      { scale: 100, nothing: NO_CROSSINGS },
    );
  const all = sumCases(replicates.map(({ total }) => total));
  return {
    visits: all.visits,
    person_crossings: all.crossings,
    tallies: sum(replicates.map(({ tallies }) => tallies)),
    wrong_per_100: per100(wrongOf),
    missed_per_100: per100((counts) => counts.missed),
    extra_per_100: per100((counts) => counts.extra),
    reversed_per_100: per100((counts) => counts.reversed),
    invented_per_100: per100((counts) => counts.invented),
    invented_per_hour: ratioEstimate(
      replicates.map(({ total }) => total.invented),
      replicates.map(() => hours),
      { n: replicates.length, nothing: 'no time' },
    ),
    drift_per_100: {
      bias: bias(replicates, crossings, wrongOf(all)),
      spread: spreadEstimate(replicates.map(({ windows }) => windows)),
    },
  };
}

/** Persons counted too many (too few: negative) per 100 crossings. */
function bias(replicates: readonly RateCounts[], crossings: readonly number[], wrong: number): Estimate {
  const options = { scale: 100, nothing: NO_CROSSINGS, signed: true } as const;
  const exposure = sum(crossings);
  // Errors may cancel; only where there was none at all does the bound on their number bound the bias.
  if (wrong === 0 && exposure > 0) return zeroEstimate(exposure, options);
  return ratioEstimate(
    replicates.map(({ net_error }) => net_error),
    crossings,
    options,
  );
}

/** Several doors of one replicate as one. A window of drift stays within its door. */
export function pool(doors: readonly RateCounts[]): RateCounts {
  const total = sumCases([]);
  const windows = { n: 0, sum: 0, sum_sq: 0 };
  for (const door of doors) {
    addCase(total, door.total);
    windows.n += door.windows.n;
    windows.sum += door.windows.sum;
    windows.sum_sq += door.windows.sum_sq;
  }
  return {
    total,
    tallies: sum(doors.map(({ tallies }) => tallies)),
    net_error: sum(doors.map(({ net_error }) => net_error)),
    windows,
  };
}
