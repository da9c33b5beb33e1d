/**
 * Logics ranked by how much more often they are wrong than the best one, pair by pair: all of a run's logics saw the
 * same crowds, so what the crowds did falls out of a difference, and small differences show.
 *
 * Common random numbers: Var(X − Y) = Var X + Var Y − 2 Cov(X, Y) (A. M. Law, W. D. Kelton, Simulation Modeling and
 * Analysis, chapter on variance reduction; from memory).
 */
import type { DoorCounts } from './door-counts.js';
import { sumCases, wrongOf } from './door-counts.js';
import { ratioEstimate } from './estimates.js';
import type { RankedLogic } from './metrics-schema.js';

/** What one replicate found: per door, per logic. */
type Doors = readonly { readonly logics: readonly Pick<DoorCounts, 'total'>[] }[];

/**
 * Least often wrong first; of equals the earlier named. The whole house, then each door where there are several; none
 * where there is but one logic.
 *
 * @param replicates in order of their numbers
 */
export function ranking(
  logics: readonly string[],
  doors: readonly string[],
  replicates: readonly Doors[],
): RankedLogic[] {
  if (logics.length < 2) return [];
  const several = doors.length > 1 ? doors.map((door, d) => ({ door, of: (all: Doors) => all.slice(d, d + 1) })) : [];
  return [{ door: null, of: (all: Doors) => all }, ...several].flatMap(({ door, of }) =>
    rankedAt(door, logics, replicates.map(of)),
  );
}

function rankedAt(door: string | null, logics: readonly string[], replicates: readonly Doors[]): RankedLogic[] {
  const cases = logics.map((_, l) => replicates.map((doors) => sumCases(doors.map((one) => one.logics[l]!.total))));
  const crossings = cases[0]!.map((counts) => counts.crossings);
  const wrong = cases.map((ofLogic) => ofLogic.map(wrongOf));
  const estimate = (events: readonly number[], signed: boolean) =>
    ratioEstimate(events, crossings, { scale: 100, nothing: 'no crossings', signed });
  const order = logics
    .map((logic, l) => ({ logic, l, wrong_per_100: estimate(wrong[l]!, false) }))
    .sort((a, b) => (a.wrong_per_100.value ?? 0) - (b.wrong_per_100.value ?? 0) || a.l - b.l);
  const best = order[0]!.l;
  return order.map(({ logic, l, wrong_per_100 }) => ({
    door,
    logic,
    wrong_per_100,
    more_than_best_per_100:
      l === best
        ? null
        : estimate(
            wrong[l]!.map((one, r) => one - wrong[best]![r]!),
            true,
          ),
  }));
}

/** Whether the difference to the best is more than chance, each by itself at 95 %. */
export function isBehind({ more_than_best_per_100: more }: RankedLogic): boolean {
  return more !== null && (more.low ?? 0) > 0;
}
