/**
 * Which kinds of passage go wrong most, per 100 visits of that kind.
 *
 * A kind with fewer than {@link FEW} visits is listed last and never called the worst: two visits gone wrong are 100
 * per 100, and their replicates may all be alike, which leaves an interval without width.
 */
import type { DoorMetrics, Estimate, KindRate } from '../score/metrics-schema.js';

/** Below this many visits a rate leads no finding. An assumption of ours. */
export const FEW = 10;

export interface RankedKind {
  readonly door: string;
  readonly rate: KindRate;
  /** Its interval reaches into the first's, so the order of the two is not certain. */
  readonly overlapsFirst: boolean;
}

const known = (e: Estimate): e is Estimate & { value: number } => e.value !== null && Number.isFinite(e.value);
/** The high end of an interval; without one, the value. */
export const highOf = (e: Estimate): number => e.high ?? e.value ?? 0;
/** The low end of an interval; without one, the value. */
export const lowOf = (e: Estimate): number => e.low ?? e.value ?? 0;

/** Kinds of all the given doors, most wrong first, those with few visits last. Kinds without a number are left out. */
export function worstKinds(doors: readonly DoorMetrics[]): RankedKind[] {
  const all = doors
    .flatMap((d) => d.by_kind.map((rate) => ({ door: d.door, rate })))
    .filter(({ rate }) => known(rate.wrong_per_100_visits))
    .sort(
      (a, b) =>
        Number(a.rate.visits < FEW) - Number(b.rate.visits < FEW) ||
        (b.rate.wrong_per_100_visits.value ?? 0) - (a.rate.wrong_per_100_visits.value ?? 0),
    );
  const first = all[0]?.rate.wrong_per_100_visits;
  return all.map((k, i) => ({
    ...k,
    overlapsFirst:
      i > 0 && k.rate.visits >= FEW && first !== undefined && highOf(k.rate.wrong_per_100_visits) >= lowOf(first),
  }));
}
