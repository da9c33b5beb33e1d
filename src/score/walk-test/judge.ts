/** What walks say of a plan: each kind agrees, disagrees, or is undecided. */
import { LEVEL } from '../jackknife.js';
import { eventsOf, pValue } from './claim.js';
import { type ShareInterval, clopperPearson } from './exact.js';
import type { PlannedKind, WalkPlan } from './plan.js';

export type Outcome = 'agrees' | 'disagrees' | 'undecided';

export interface Walked {
  readonly walks: number;
  /** Walks that were counted other than they were walked. */
  readonly wrong: number;
}

export interface KindVerdict<Kind> extends Walked {
  readonly planned: PlannedKind<Kind>;
  readonly outcome: Outcome;
  /** Of "the share of wrong walks is as predicted". */
  readonly p: number;
  /** 95 % interval of the share of wrong walks, after Clopper and Pearson. */
  readonly interval: ShareInterval;
  /** Where it disagrees: whether more walks are wrong than predicted, or fewer. */
  readonly side: 'more' | 'fewer' | null;
  /** Walks of this kind still to do before it is decided. */
  readonly more: number;
}

export interface TestVerdict<Kind> {
  readonly kinds: readonly KindVerdict<Kind>[];
  readonly outcome: Outcome;
}

/**
 * Before all planned walks are done, only what is this many times clearer refutes, so that looking often does not add up
 * to false alarms: 0.001 where the end has 0.05. Source: R. Peto et al., "Design and analysis of randomized clinical
 * trials requiring prolonged observation of each patient", British Journal of Cancer 34, 1976, 585–612 (from memory).
 */
export const EARLY = 50;

/**
 * A kind disagrees when its walks refute the prediction. It agrees when as many as planned do not: so many would have
 * found out a door at `finds` four times in five. Otherwise it is undecided.
 *
 * @param walked in the order of the plan's kinds
 */
export function judge<Kind>(plan: WalkPlan<Kind>, walked: readonly Walked[]): TestVerdict<Kind> {
  const kinds = plan.kinds.map((planned, i) => judgeKind(planned, walked[i]!, plan.error));
  const some = (outcome: Outcome) => kinds.some((kind) => kind.outcome === outcome);
  return { kinds, outcome: some('disagrees') ? 'disagrees' : some('undecided') ? 'undecided' : 'agrees' };
}

function judgeKind<Kind>(planned: PlannedKind<Kind>, { walks, wrong }: Walked, error: number): KindVerdict<Kind> {
  const { claim } = planned;
  const p = pValue(claim, eventsOf(claim, wrong, walks), walks);
  const missing = Math.max(0, planned.walks - walks);
  const refuted = p <= (missing > 0 ? error / EARLY : error);
  const interval = clopperPearson(wrong, walks, LEVEL);
  return {
    planned,
    walks,
    wrong,
    outcome: refuted ? 'disagrees' : missing > 0 ? 'undecided' : 'agrees',
    p,
    interval,
    side: refuted ? (wrong / walks > planned.prediction.value ? 'more' : 'fewer') : null,
    more: refuted ? 0 : missing,
  };
}
