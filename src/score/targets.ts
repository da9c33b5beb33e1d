/** Is it good enough? Targets are read against the intervals, never against the values alone. */
import type { Estimate, Metrics } from './metrics-schema.js';
import type { Target } from './schema.js';

type Outcome = Metrics['targets'][number];
type Judged = Omit<Metrics, 'targets' | 'why'>;

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
  'empty_while_occupied_per_day',
  'occupied_while_empty_per_day',
  'longest_empty_while_occupied_min',
  'longest_occupied_while_empty_min',
  'first_wrong_h',
] as const;
/** Besides those of the doors together: estimates that a target may name of all rooms at once. */
export const HOUSE_TARGETS = [
  'exact_share',
  'persons_bias',
  'persons_absolute_error',
  'empty_while_occupied_per_day',
  'occupied_while_empty_per_day',
  'first_wrong_h',
] as const;
/** Stands for every room: the worst one decides. */
export const EVERY_ROOM = '*';

/** A target's path, taken apart. */
export type TargetPath =
  | { readonly of: 'house'; readonly metric: string; readonly logic?: string; readonly ledger?: string }
  | { readonly of: 'doors'; readonly name: string; readonly logic?: string; readonly metric: string }
  | {
      readonly of: 'rooms';
      readonly name: string;
      readonly logic?: string;
      readonly ledger?: string;
      readonly metric: string;
    };

/** The metrics a path may end with. */
export function knownMetrics(root: string): readonly string[] {
  if (root === 'rooms') return ROOM_TARGETS;
  return root === 'house' ? [...DOOR_TARGETS, ...HOUSE_TARGETS] : DOOR_TARGETS;
}

/**
 * Takes a path apart: `house.METRIC`, `house[.LOGIC[.LEDGER]].METRIC` of all rooms at once, `doors.DOOR[.LOGIC].METRIC`,
 * `rooms.ROOM[.LOGIC[.LEDGER]].METRIC`, where ROOM may be `*`. Without a logic or ledger the first is meant. Null when it
 * is no such path, or the metric none of the known ones.
 */
export function parseTargetPath(path: string): TargetPath | null {
  const metric = knownMetrics(path.split('.')[0]!).find((name) => path.endsWith(`.${name}`));
  if (metric === undefined) return null;
  const [of, ...names] = path.slice(0, -metric.length - 1).split('.');
  if (of === 'house') {
    const [logic, ledger, ...more] = names;
    // The doors together are judged under the first logic only, and no ledger has a part in it.
    const most = HOUSE_TARGETS.some((name) => name === metric) ? 2 : 0;
    return more.length > 0 || names.length > most ? null : { of, metric, ...named({ logic, ledger }) };
  }
  const [name, logic, ledger, ...more] = names;
  if (!name || more.length > 0) return null;
  if (of === 'doors' && ledger === undefined) return { of, name, metric, ...named({ logic }) };
  return of === 'rooms' ? { of, name, metric, ...named({ logic, ledger }) } : null;
}

/** Without the keys that have no value. */
function named<K extends string>(names: Readonly<Record<K, string | undefined>>): Partial<Record<K, string>> {
  return Object.fromEntries(Object.entries(names).filter(([, name]) => name !== undefined)) as Partial<
    Record<K, string>
  >;
}

/**
 * The estimate a path names, or null when there is none. Of several rooms the one furthest on the bad side: the
 * highest, or with `lowest` the lowest; one without an interval before all others.
 */
export function findEstimate(metrics: Judged, path: string, lowest = false): Estimate | null {
  const end = ({ low, high }: Estimate) => (lowest ? -(low ?? -Infinity) : (high ?? Infinity));
  const all = findEstimates(metrics, path);
  return all.reduce<Estimate | null>((worst, one) => (worst && end(worst) >= end(one) ? worst : one), null);
}

/** All estimates a path names: with `rooms.*` one a room, otherwise one or none. */
function findEstimates(metrics: Judged, path: string): Estimate[] {
  const parsed = parseTargetPath(path);
  if (parsed === null) return [];
  const { of, metric } = parsed;
  const fits = (entry: { readonly logic: string; readonly ledger?: string }) =>
    (parsed.logic === undefined || entry.logic === parsed.logic) &&
    (of === 'doors' || parsed.ledger === undefined || entry.ledger === parsed.ledger);
  if (of === 'rooms') {
    const every = parsed.name === EVERY_ROOM;
    const rooms = new Set(every ? metrics.rooms.map(({ room }) => room) : [parsed.name]);
    return [...rooms].flatMap((name) => {
      const room = metrics.rooms.find((entry) => entry.room === name && fits(entry));
      return room === undefined ? [] : [room[metric as (typeof ROOM_TARGETS)[number]]];
    });
  }
  if (of === 'house' && HOUSE_TARGETS.some((name) => name === metric)) {
    const house = metrics.houses.find(fits);
    return house === undefined ? [] : [house[metric as (typeof HOUSE_TARGETS)[number]]];
  }
  const rates =
    of === 'house' ? metrics.house : metrics.doors.find((entry) => entry.door === parsed.name && fits(entry));
  if (rates === undefined) return [];
  if (metric === 'drift_per_100.bias') return [rates.drift_per_100.bias];
  if (metric === 'drift_per_100.spread') return [rates.drift_per_100.spread];
  return [rates[metric as Exclude<(typeof DOOR_TARGETS)[number], `drift_per_100.${string}`>]];
}

type Judgement = Pick<Outcome, 'outcome' | 'more_replicates'>;

/** Which of several rooms decides: the first of these that any of them is. */
const WORST_FIRST = ['missed', 'unknown', 'undecided', 'met'] as const;

/**
 * Met if the whole interval is on the good side, missed if the whole interval is on the bad side, otherwise undecided;
 * unknown when there is no such estimate or it has no interval. Of several rooms the worst decides.
 */
export function judgeTarget(metrics: Judged, target: Target): Outcome {
  const { metric, at_most, at_least } = target;
  const asked = {
    metric,
    ...(at_most === undefined ? {} : { at_most }),
    ...(at_least === undefined ? {} : { at_least }),
  };
  const all = findEstimates(metrics, metric).map((estimate) => judged(estimate, target, metrics.replicates));
  const outcome = WORST_FIRST.find((one) => all.some((judgement) => judgement.outcome === one)) ?? 'unknown';
  const more = all.filter((judgement) => judgement.outcome === outcome).map((one) => one.more_replicates);
  return { ...asked, outcome, more_replicates: mostOf(more) };
}

/** The largest; null when there is none, or one of them is null. */
function mostOf(counts: readonly (number | null)[]): number | null {
  return counts.length === 0 || counts.includes(null) ? null : Math.max(...counts.map((count) => count ?? 0));
}

function judged(estimate: Estimate, { at_most, at_least }: Target, replicates: number): Judgement {
  const { low } = estimate;
  // A median wait may have an interval that is open to one side: that side is as long as can be.
  const high = estimate.high ?? (estimate.method === 'kaplan-meier' ? Infinity : null);
  if (low === null || high === null) return { outcome: 'unknown', more_replicates: null };
  const missed = (at_most !== undefined && low > at_most) || (at_least !== undefined && high < at_least);
  if (missed) return { outcome: 'missed', more_replicates: null };
  const open = [
    ...(at_most !== undefined && high > at_most ? [at_most] : []),
    ...(at_least !== undefined && low < at_least ? [at_least] : []),
  ];
  if (open.length === 0) return { outcome: 'met', more_replicates: null };
  return {
    outcome: 'undecided',
    more_replicates: mostOf(open.map((limit) => moreReplicates(estimate, limit, replicates))),
  };
}

/**
 * How many more replicates would move the interval off `limit`, if the value stayed: its half-width goes as 1/√n, the
 * bound of zero events as 1/n. Null when the value lies on the limit, or so near that no sensible number would do.
 */
export function moreReplicates(estimate: Estimate, limit: number, replicates: number): number | null {
  const { value } = estimate;
  if (value === null || estimate.high === null) return null;
  // The low end may have been cut at 0, the high end of a share at 1: the longer half is the true one.
  const half = Math.max(estimate.high - value, value - estimate.low!);
  const ratio = half / Math.abs(value - limit);
  const needed = Math.ceil(replicates * (estimate.method === 'poisson-zero' ? ratio : ratio * ratio));
  if (needed > 1e9) return null;
  return Math.max(1, needed - replicates);
}
