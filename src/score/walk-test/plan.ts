/**
 * How many walks of each kind: as many as each needs, or what an evening has room for.
 *
 * The chance of a false alarm is split over the kinds (Bonferroni), so that a door as predicted is called different in
 * at most one test in twenty, however many kinds are walked.
 */
import { type Claim, claimOf, ERROR, type PredictedShare } from './claim.js';
import { shareFound, walksNeeded } from './sample-size.js';

export interface PlannedKind<Kind> {
  readonly kind: Kind;
  readonly prediction: PredictedShare;
  readonly claim: Claim;
  readonly walks: number;
  /** Walks that would tell the claim from its `beyond`; null: more than {@link MOST_SOUGHT}. */
  readonly needed: number | null;
  /** Share, of what the claim is of, that `walks` tell from it with 80 % power: `beyond`, or more where walks are too few. */
  readonly finds: number;
}

export interface WalkPlan<Kind> {
  readonly kinds: readonly PlannedKind<Kind>[];
  /** Below this p-value a kind disagrees. */
  readonly error: number;
}

interface Predicted {
  readonly prediction: PredictedShare;
}

/** Needs beyond this are told as "more than". */
export const MOST_SOUGHT = 2000;
/** Of a kind that is walked at all, at least so many. */
const FEWEST = 6;
/** Of a kind that can't be decided, so many, at least, to see whether it is grossly worse. */
const A_FEW = 20;
/** Of a kind that no number of walks decides, no more: they would hardly tell more. */
const ENOUGH_TO_SEE = 60;

/**
 * @param kinds the most important first; kinds that find no room at the end are left out
 * @param most walks of all kinds together
 */
export function planWalks<Kind extends Predicted>(kinds: readonly Kind[], most: number): WalkPlan<Kind> {
  const walked = kinds.slice(0, Math.floor(most / FEWEST));
  const error = ERROR / Math.max(1, walked.length);
  const needs = walked.map(({ prediction }) => {
    const needed = walksNeeded(claimOf(prediction), error, MOST_SOUGHT);
    return needed === null ? null : Math.max(FEWEST, needed);
  });
  return planOf(walked, shareOut(needs, most));
}

/** The plan that has so many walks of each kind. */
export function planOf<Kind extends Predicted>(kinds: readonly Kind[], walks: readonly number[]): WalkPlan<Kind> {
  const error = ERROR / Math.max(1, kinds.length);
  return {
    error,
    kinds: kinds.map((kind, i) => {
      const claim = claimOf(kind.prediction);
      const needed = walksNeeded(claim, error, MOST_SOUGHT);
      const enough = needed !== null && walks[i]! >= needed;
      const finds = enough ? claim.beyond : shareFound(claim, walks[i]!, error);
      return { kind, prediction: kind.prediction, claim, walks: walks[i]!, needed, finds };
    }),
  };
}

/**
 * Walks for each kind, in order of importance, `most` or fewer together. Those that are within reach share what there is
 * under one cap. Those that would need more than all there is get a few, and what is left, the first first.
 *
 * @param needs null: none decides it
 */
function shareOut(needs: readonly (number | null)[], most: number): number[] {
  if (needs.length === 0) return [];
  const inReach = (need: number | null): need is number => need !== null && need <= most;
  const few = Math.min(A_FEW, 2 * Math.floor(most / needs.length / 2));
  const reachable = needs.filter(inReach);
  const cap = capOf(reachable, most - (needs.length - reachable.length) * few);
  const shares = needs.map((need) => (inReach(need) ? Math.min(cap, need) : few));
  let left = most - shares.reduce((sum, share) => sum + share, 0);
  return shares.map((share, i) => {
    const room = Math.max(0, (needs[i] ?? ENOUGH_TO_SEE) - share);
    const more = 2 * Math.floor(Math.min(left, room) / 2);
    left -= more;
    return share + more;
  });
}

/** The largest even cap under which all together are at most `most`. */
function capOf(needs: readonly number[], most: number): number {
  const largest = Math.max(0, ...needs);
  let cap = 2;
  while (cap < largest && needs.reduce((sum, need) => sum + Math.min(cap + 2, need), 0) <= most) cap += 2;
  return cap;
}
