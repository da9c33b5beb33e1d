/** Which ledger does best on the same tallies. */
import type { Design } from '../scenario/schema.js';
import type { Estimate, HouseMetrics, Metrics } from '../score/metrics-schema.js';
import { headlineLogic } from './words.js';
import { highOf, lowOf } from './worst.js';

export interface LedgerChoice {
  readonly first: HouseMetrics;
  readonly best: HouseMetrics;
  /** The two intervals don't meet. Both ledgers had the same tallies, so this asks more than need be. */
  readonly certain: boolean;
}

/** What ledgers are compared by: how long all counts are right, or how often somebody is left in the dark. */
export const judgedBy = (design: Design): 'exact_share' | 'empty_while_occupied_per_day' =>
  design.need === 'anyone' ? 'empty_while_occupied_per_day' : 'exact_share';

/** Under the logic of the headline; null where no room is counted. The first is the best where none is better. */
export function ledgerChoice(design: Design, metrics: Metrics): LedgerChoice | null {
  const houses = metrics.houses.filter(({ logic }) => logic === headlineLogic(design));
  const [first] = houses;
  if (first === undefined) return null;
  const by = judgedBy(design);
  const sign = by === 'exact_share' ? 1 : -1;
  const worth = (house: HouseMetrics): number => {
    const { value } = house[by];
    return value === null ? -Infinity : sign * value;
  };
  const best = houses.reduce((a, b) => (worth(b) > worth(a) ? b : a), first);
  const [a, b] = [first[by], best[by]];
  const whole = (e: Estimate): boolean => e.low !== null && e.high !== null;
  const apart = sign > 0 ? lowOf(b) > highOf(a) : highOf(b) < lowOf(a);
  return { first, best, certain: whole(a) && whole(b) && apart };
}
