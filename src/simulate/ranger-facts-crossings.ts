/** What rangers make of walkers going through alone: who is seen, at what interval, and in which order. */
import type { Crossing } from './crossing-sample.js';
import type { Share } from './weighted.js';
import type { Interval, PairScanFacts, RangerPairFacts, SeenFacts } from './ranger-fact-types.js';
import type { RangerCrossing } from './ranger-facts-trace.js';
import { meanOf, shareOf, type Weighted } from './weighted.js';

/** @param beam the ranger's index among the door's beams */
export function seenFacts(crossings: readonly Weighted<Crossing>[], beam: number): SeenFacts {
  const seen = crossings.map(({ item, weight }) => ({ item: item.rangers[beam] as RangerCrossing, weight }));
  const inAxis = meanOf(seen, (one) => one.inAxis);
  return {
    ever: shareOf(seen, ({ near_s }) => near_s.length > 0),
    read: { value: meanOf(seen, ({ read }) => read), n: seen.length },
    broken: shareOf(seen, ({ breaks }) => breaks > 0),
    lost: {
      value: inAxis > 0 ? meanOf(seen, ({ lost }) => lost) / inAxis : 0,
      n: seen.reduce((sum, { item }) => sum + item.inAxis, 0),
    },
  };
}

/**
 * Which of two rangers begins to see first, before any reading: those who walk forward should be seen by the first.
 *
 * @param first index among the door's beams of the one that is further back along the walk
 */
export function orderFacts(
  crossings: readonly Weighted<Crossing>[],
  [first, second]: readonly [number, number],
  interval_ms: number,
): Pick<RangerPairFacts, 'same_scan' | 'wrong_order'> {
  // By how much later the further one begins, seconds.
  const lags = crossings.flatMap(({ item: { arrival, breaks }, weight }) => {
    const [a, b] = [breaks[first]?.[0], breaks[second]?.[0]];
    if (a === undefined || b === undefined) return [];
    return [{ item: arrival.visit.direction === 'forward' ? b - a : a - b, weight }];
  });
  return {
    same_scan: shareOf(lags, (lag_s) => Math.abs(lag_s) * 1000 < interval_ms),
    wrong_order: shareOf(lags, (lag_s) => lag_s < 0),
  };
}

/** A pair is sure to be read as "first broken, second clear" only if both are read within spacing / speed. */
export function pairScanFacts(
  intervals: readonly Interval[],
  spacing_m: number,
  unsureOf: (faster_than_mps: number) => Share,
): PairScanFacts {
  const interval = {
    idle_ms: Math.max(...intervals.map(({ idle_ms }) => idle_ms)),
    busiest_ms: Math.max(...intervals.map(({ busiest_ms }) => busiest_ms)),
  };
  const sure_to_mps = (1000 * spacing_m) / interval.idle_ms;
  return { interval, sure_to_mps, unsure: unsureOf(sure_to_mps) };
}
