/** Which ledger does best on the same tallies. */
import type { Design } from '../scenario/schema.js';
import type { Estimate, HouseMetrics, Metrics } from '../score/metrics-schema.js';
import { headlineLogic } from './words.js';

export interface LedgerChoice {
  readonly first: HouseMetrics;
  readonly best: HouseMetrics;
  /** The two intervals don't meet. Both ledgers had the same tallies, so this asks more than need be. */
  readonly certain: boolean;
}

/**
 * What ledgers are compared by, the lower the better: how long some room is wrong; or, where it only matters whether anyone is
 * there, how often a day a room is dark or left on. Ends add up with the ends of both: wider than need be.
 */
function badness(design: Design, house: HouseMetrics): Estimate {
  if (design.need === 'number') {
    const { value, low, high, ...rest } = house.exact_share;
    return { ...rest, value: less(value), low: less(high), high: less(low) };
  }
  const [dark, on] = [house.empty_while_occupied_per_day, house.occupied_while_empty_per_day];
  return { ...dark, value: plus(dark.value, on.value), low: plus(dark.low, on.low), high: plus(dark.high, on.high) };
}

const less = (x: number | null): number | null => (x === null ? null : 1 - x);
const plus = (a: number | null, b: number | null): number | null => (a === null || b === null ? null : a + b);

/** Under the logic of the headline; null where no room is counted. The first is the best where none is better. */
export function ledgerChoice(design: Design, metrics: Metrics): LedgerChoice | null {
  const houses = metrics.houses
    .filter(({ logic }) => logic === headlineLogic(design))
    .map((house) => ({ house, bad: badness(design, house) }));
  const [first] = houses;
  if (first === undefined) return null;
  const best = houses.reduce((a, b) => ((b.bad.value ?? Infinity) < (a.bad.value ?? Infinity) ? b : a), first);
  const certain = best.bad.high !== null && first.bad.low !== null && best.bad.high < first.bad.low;
  return { first: first.house, best: best.house, certain };
}
