/** Which kinds of passage go wrong most, per 100 visits of that kind. */
import type { DoorMetrics, Estimate } from '../score/metrics-schema.js';

type KindRate = DoorMetrics['by_kind'][number];

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

/** Kinds of all the given doors, most wrong first; ties in the order they came. Kinds without a number are left out. */
export function worstKinds(doors: readonly DoorMetrics[]): RankedKind[] {
  const all = doors
    .flatMap((d) => d.by_kind.map((rate) => ({ door: d.door, rate })))
    .filter(({ rate }) => known(rate.wrong_per_100_visits))
    .sort((a, b) => (b.rate.wrong_per_100_visits.value ?? 0) - (a.rate.wrong_per_100_visits.value ?? 0));
  const first = all[0]?.rate.wrong_per_100_visits;
  return all.map((k, i) => ({
    ...k,
    overlapsFirst: i > 0 && first !== undefined && highOf(k.rate.wrong_per_100_visits) >= lowOf(first),
  }));
}
