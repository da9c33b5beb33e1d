/** Is it good enough? Targets are read against the intervals, never against the values alone. */
import type { Estimate, Metrics } from './metrics-schema.js';
import type { Target } from './schema.js';

type Outcome = Metrics['targets'][number];
type Judged = Omit<Metrics, 'targets'>;

/** Estimates that a target may name, of the house and of each door. */
export const DOOR_TARGETS = [
  'wrong_per_100',
  'missed_per_100',
  'extra_per_100',
  'reversed_per_100',
  'invented_per_100',
  'invented_per_hour',
  'drift_per_100.bias',
  'drift_per_100.spread',
] as const;
/** Estimates that a target may name, of each room. Shares are from 0 to 1. */
export const ROOM_TARGETS = [
  'exact_share',
  'empty_while_occupied_share',
  'occupied_while_empty_share',
  'mean_absolute_error',
] as const;

/** A target's path, taken apart. */
export type TargetPath =
  | { readonly of: 'house'; readonly metric: string }
  | { readonly of: 'doors'; readonly name: string; readonly logic?: string; readonly metric: string }
  | {
      readonly of: 'rooms';
      readonly name: string;
      readonly logic?: string;
      readonly ledger?: string;
      readonly metric: string;
    };

/**
 * Takes a path apart: `house.METRIC`, `doors.DOOR[.LOGIC].METRIC`, `rooms.ROOM[.LOGIC[.LEDGER]].METRIC`. Without a
 * logic or ledger the first is meant. Null when it is no such path, or the metric none of the known ones.
 */
export function parseTargetPath(path: string): TargetPath | null {
  const known: readonly string[] = path.startsWith('rooms.') ? ROOM_TARGETS : DOOR_TARGETS;
  const metric = known.find((name) => path.endsWith(`.${name}`));
  if (metric === undefined) return null;
  const [of, name, logic, ledger, ...more] = path.slice(0, -metric.length - 1).split('.');
  if (more.length > 0) return null;
  if (of === 'house' && name === undefined) return { of, metric };
  if (!name) return null;
  if (of === 'doors' && ledger === undefined) return { of, name, metric, ...(logic === undefined ? {} : { logic }) };
  if (of !== 'rooms') return null;
  return { of, name, metric, ...(logic === undefined ? {} : { logic }), ...(ledger === undefined ? {} : { ledger }) };
}

/** The estimate a path names, or null when there is none. */
export function findEstimate(metrics: Judged, path: string): Estimate | null {
  const parsed = parseTargetPath(path);
  if (parsed === null) return null;
  if (parsed.of === 'rooms') {
    const room = metrics.rooms.find(
      (entry) =>
        entry.room === parsed.name &&
        (parsed.logic === undefined || entry.logic === parsed.logic) &&
        (parsed.ledger === undefined || entry.ledger === parsed.ledger),
    );
    return room === undefined ? null : room[parsed.metric as (typeof ROOM_TARGETS)[number]];
  }
  const rates =
    parsed.of === 'house'
      ? metrics.house
      : metrics.doors.find(
          (entry) => entry.door === parsed.name && (parsed.logic === undefined || entry.logic === parsed.logic),
        );
  if (rates === undefined) return null;
  if (parsed.metric === 'drift_per_100.bias') return rates.drift_per_100.bias;
  if (parsed.metric === 'drift_per_100.spread') return rates.drift_per_100.spread;
  return rates[parsed.metric as Exclude<(typeof DOOR_TARGETS)[number], `drift_per_100.${string}`>];
}

/**
 * Met if the whole interval is on the good side, missed if the whole interval is on the bad side, otherwise undecided;
 * unknown when there is no such estimate or it has no interval.
 */
export function judgeTarget(metrics: Judged, target: Target): Outcome {
  const { metric, at_most, at_least } = target;
  const asked = {
    metric,
    ...(at_most === undefined ? {} : { at_most }),
    ...(at_least === undefined ? {} : { at_least }),
  };
  const estimate = findEstimate(metrics, metric);
  if (estimate === null || estimate.value === null || estimate.low === null || estimate.high === null) {
    return { ...asked, outcome: 'unknown', more_replicates: null };
  }
  const { low, high } = estimate;
  const missed = (at_most !== undefined && low > at_most) || (at_least !== undefined && high < at_least);
  if (missed) return { ...asked, outcome: 'missed', more_replicates: null };
  const open = [
    ...(at_most !== undefined && high > at_most ? [at_most] : []),
    ...(at_least !== undefined && low < at_least ? [at_least] : []),
  ];
  if (open.length === 0) return { ...asked, outcome: 'met', more_replicates: null };
  const more = open.map((limit) => moreReplicates(estimate, limit, metrics.replicates));
  return {
    ...asked,
    outcome: 'undecided',
    more_replicates: more.includes(null) ? null : Math.max(...more.map((count) => count ?? 0)),
  };
}

/**
 * How many more replicates would move the interval off `limit`, if the value stayed: its half-width goes as 1/√n, the
 * bound of zero events as 1/n. Null when the value lies on the limit, or so near that no sensible number would do.
 */
function moreReplicates(estimate: Estimate, limit: number, replicates: number): number | null {
  const value = estimate.value!;
  // The low end may have been cut at 0, the high end of a share at 1: the longer half is the true one.
  const half = Math.max(estimate.high! - value, value - estimate.low!);
  const ratio = half / Math.abs(value - limit);
  const needed = Math.ceil(replicates * (estimate.method === 'poisson-zero' ? ratio : ratio * ratio));
  if (needed > 1e9) return null;
  return Math.max(1, needed - replicates);
}
