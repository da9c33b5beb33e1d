/** Causes of wrong counts, counted: shares of what was explained, and how many a week. */
import { WEEK_H } from '../engine/time.js';
import { ratioEstimate, sum } from './estimates.js';
import { countedAlike } from './why-per-week.js';
import type { ErrorCounts } from './errors.js';
import { errorSum } from './errors.js';
import type { WhyMetrics } from './metrics-schema.js';
import type { Why } from './why-classes.js';
import { HOWS, REMOVALS, STRUCTURES } from './why-classes.js';

/** One wrong visit, or one tally of nobody, and why. Doors and logics by their index. */
export interface Explained {
  readonly door: number;
  readonly logic: number;
  /** Number of the visit; null for a tally of nobody. */
  readonly number: number | null;
  readonly time_us: number;
  readonly errors: ErrorCounts;
  readonly why: Why;
}

/** One replicate that was looked at closely. */
export interface WhyRecord {
  readonly explained: readonly Explained[];
  /** `all[door][logic]`: wrong visits and tallies of nobody, explained or not. */
  readonly all: readonly (readonly number[])[];
}

const THINGS: readonly string[] = [...REMOVALS, ...STRUCTURES];

/**
 * Per logic: all doors together (`door` null), then each of several doors. Classes come by how often they are met.
 *
 * @param records the replicates looked at, in order of their numbers
 * @param all `all[replicate][door][logic]`: what went wrong in each replicate of the run, those looked at first
 * @param hours of each
 */
export function whyMetrics(
  logics: readonly string[],
  doors: readonly string[],
  records: readonly WhyRecord[],
  all: readonly WhyRecord['all'][],
  hours: number,
): WhyMetrics[] {
  if (records.length === 0) return [];
  const places = [null, ...(doors.length > 1 ? doors.keys() : [])];
  return logics.flatMap((logic, l) =>
    places.map((d) => ({
      door: d === null ? null : doors[d]!,
      logic,
      ...classesAt(
        records.map((record) => ofPlace(record, d, l)),
        all.map((one) => wrongAt(one, d, l)),
        hours,
      ),
    })),
  );
}

interface Place {
  /** Classes, each with the number of wrong counts that one explained one stands for. */
  readonly found: readonly { readonly why: Why; readonly errors: ErrorCounts; readonly weight: number }[];
  readonly all: number;
}

function ofPlace({ explained, all }: WhyRecord, door: number | null, logic: number): Place {
  const doors = door === null ? [...all.keys()] : [door];
  return {
    all: wrongAt(all, door, logic),
    found: doors.flatMap((d) => {
      const own = explained.filter((one) => one.door === d && one.logic === logic);
      return own.map(({ why, errors }) => ({ why, errors, weight: all[d]![logic]! / own.length }));
    }),
  };
}

/** @param door null for all of them */
function wrongAt(all: WhyRecord['all'], door: number | null, logic: number): number {
  return door === null ? sum(all.map((logics) => logics[logic]!)) : all[door]![logic]!;
}

/** @param wrong of each replicate of the run */
function classesAt(
  places: readonly Place[],
  wrong: readonly number[],
  hours: number,
): Pick<WhyMetrics, 'wrong' | 'explained' | 'causes'> {
  const classes = new Map<string, Why>();
  for (const { found } of places) for (const { why } of found) classes.set(keyOf(why), why);
  const all = places.map((place) => place.all);
  const weeks = wrong.map(() => hours / WEEK_H);
  const causes = [...classes].map(([key, { how, things }]) => {
    const own = places.map(({ found }) => found.filter(({ why }) => keyOf(why) === key));
    const events = own.map((ofPlace) => sum(ofPlace.map(({ weight }) => weight)));
    return {
      how,
      things: [...things],
      explained: sum(own.map((ofPlace) => ofPlace.length)),
      errors: errorSum(own.flatMap((ofPlace) => ofPlace.map(({ errors }) => errors))),
      share: ratioEstimate(events, all, { nothing: 'nothing wrong', max: 1 }),
      per_week: countedAlike(events, all, wrong, weeks),
    };
  });
  causes.sort((a, b) => (b.share.value ?? 0) - (a.share.value ?? 0) || order(a) - order(b));
  return { wrong: sum(all), explained: sum(places.map(({ found }) => found.length)), causes };
}

/** Ties in the order in which causes are tried. */
function order({ how, things }: Why): number {
  return HOWS.indexOf(how) * 100 + THINGS.indexOf(things[0] ?? '');
}

export function keyOf({ how, things }: Why): string {
  return `${how}: ${things.join()}`;
}
