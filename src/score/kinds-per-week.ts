/**
 * What a kind of passage does to a count in a week: how often it goes wrong, what that adds up to, and how long the first
 * time is in coming.
 *
 * Kinds that a run hardly saw may have been looked at more closely, by extra parties each alone in the doorway. Then
 * what happens in a week is how often they come, from the run, times what happens in a visit, from the extra ones.
 */
import type { PassageKind } from '../agents/schema.js';
import { ln } from '../engine/arithmetic.js';
import { HOUR_US, WEEK_H } from '../engine/time.js';
import { type KindCounts, wrongOf } from './door-counts.js';
import { ratioEstimate, sum, unknown, zeroEstimate } from './estimates.js';
import type { DoorMetrics, Estimate } from './metrics-schema.js';
import { medianWait } from './survival.js';

/** Extra visits of a rare kind: what was found in each party of it. */
export interface RareKind {
  readonly who: string;
  readonly kind: PassageKind;
  readonly visits: number;
  /** Per visit. */
  readonly wrong: Estimate;
  /** Per visit, counted minus true persons, forward positive. */
  readonly net_error: Estimate;
}

type PerWeek = Pick<
  DoorMetrics['by_kind'][number],
  'visits_per_week' | 'wrong_per_week' | 'net_error_per_week' | 'first_wrong_median_days' | 'oversampled'
>;

const NO_TIME = { nothing: 'no time' } as const;

/** @param cases one entry per replicate, each `hours` long */
export function perWeek(cases: readonly KindCounts[], hours: number, rare?: RareKind): PerWeek {
  const weeks = cases.map(() => hours / WEEK_H);
  const n = sum(cases.map(({ visits }) => visits));
  const visits_per_week = ratioEstimate(
    cases.map(({ visits }) => visits),
    weeks,
    { n, ...NO_TIME },
  );
  if (rare !== undefined) {
    const wrong_per_week = timesEstimate(visits_per_week, rare.wrong, rare.visits);
    return {
      visits_per_week,
      wrong_per_week,
      net_error_per_week: timesEstimate(visits_per_week, rare.net_error, rare.visits),
      first_wrong_median_days: firstWrong(cases, hours, wrong_per_week),
      oversampled: rare.visits,
    };
  }
  const wrong_per_week = ratioEstimate(cases.map(wrongOf), weeks, { n, ...NO_TIME });
  // Errors may cancel; only where there was none at all is there a bound on their number.
  const net_error_per_week =
    wrong_per_week.value === 0
      ? zeroEstimate(sum(weeks), { n, signed: true, ...NO_TIME })
      : ratioEstimate(
          cases.map(({ net_error }) => net_error),
          weeks,
          { n, signed: true, ...NO_TIME },
        );
  return {
    visits_per_week,
    wrong_per_week,
    net_error_per_week,
    first_wrong_median_days: firstWrong(cases, hours, wrong_per_week),
  };
}

/**
 * The product of two independent estimates. Its interval joins theirs end by end: the square of its half-width is the sum
 * of the squares of what each factor's half-width makes of it (first order, as G. Y. Zou, A. Donner, "Construction of
 * confidence limits about effect measures", Statistics in Medicine 27, 2008, do for sums; citation from memory).
 *
 * @param times none negative; where it has no interval, only the other one's counts
 */
export function timesEstimate(times: Estimate, each: Estimate, n: number): Estimate {
  if (times.value === null || each.value === null) return unknown(times.reason ?? each.reason ?? 'no value', n);
  const value = times.value * each.value;
  const estimate = { value, low: null, high: null, method: 'oversampled', n } as const;
  if (each.low === null || each.high === null)
    return { ...estimate, method: 'none', reason: each.reason ?? 'no interval' };
  const fewer = (times.value - (times.low ?? times.value)) * Math.abs(each.value);
  const more = ((times.high ?? times.value) - times.value) * Math.abs(each.value);
  const below = times.value * (each.value - each.low);
  const above = times.value * (each.high - each.value);
  // Fewer of what is negative is more.
  const [down, up] = each.value < 0 ? [more, fewer] : [fewer, more];
  const low = value - Math.sqrt(below * below + down * down);
  const high = value + Math.sqrt(above * above + up * up);
  const cut = each.low >= 0 ? Math.max(0, low) : low;
  const reason = each.reason ?? (times.low === null ? times.reason : undefined);
  return { ...estimate, low: cut, high, ...(reason === undefined ? {} : { reason }) };
}

/** Median days until the first wrong count: over replicates where they saw it, otherwise that of a steady rate. */
function firstWrong(cases: readonly KindCounts[], hours: number, wrong_per_week: Estimate): Estimate {
  const median = medianWait(
    cases.map(({ first_wrong_us }) => ({
      time: first_wrong_us < 0 ? hours / 24 : first_wrong_us / HOUR_US / 24,
      happened: first_wrong_us >= 0,
    })),
  );
  if (median.value !== null) return median;
  return steadyWait(wrong_per_week);
}

/** Median wait for the first event of a steady rate, ln 2 over the rate, days; no event has no wait. */
function steadyWait({ value, low, high, n, reason }: Estimate): Estimate {
  if (value === null) return unknown(reason ?? 'no rate', n);
  const days = (rate: number | null) => (rate === null || rate === 0 ? null : (7 * ln(2)) / rate);
  const [shortest, longest] = [days(high), days(low)];
  const why =
    value === 0
      ? 'none seen: the wait has only a low end'
      : longest === null
        ? 'the rate may be next to nothing: the wait has no high end'
        : 'no median over replicates: that of a steady rate';
  return { value: days(value), low: shortest, high: longest, method: 'exponential', n, reason: why };
}
