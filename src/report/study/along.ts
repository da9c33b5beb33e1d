/** Designs along one factor, the other factors held. */
import { withLevel } from '../../study/plan/factor.js';
import type { StudyDesign } from '../../study/summary-schema.js';
import { thinned } from '../charts/thin.js';
import type { StudyView } from './view.js';

export interface Step {
  readonly level: number;
  /** Its number, where it is one. */
  readonly value: number | null;
  /** None where the combination was left out. */
  readonly design: StudyDesign | undefined;
}

/** Levels of a factor in a picture or table, at most. */
export const MOST_LEVELS = 30;

/** At most `most` levels of a factor in order, evenly spread, `keep` among them. */
export function someLevels(view: StudyView, factor: number, most: number, keep: number): number[] {
  const { levels } = view.factors[factor]!;
  const order = levels.map((_, level) => level);
  if (levels.every(({ value }) => value !== null)) order.sort((a, b) => levels[a]!.value! - levels[b]!.value!);
  const at = thinned(order.length, most);
  const kept = order.indexOf(keep);
  if (kept >= 0 && !at.includes(kept)) {
    const nearest = at.reduce((near, one, i) => (Math.abs(one - kept) < Math.abs(at[near]! - kept) ? i : near), 0);
    at[nearest] = kept;
  }
  return at.map((i) => order[i]!);
}

/** @param held levels of all factors; that of `factor` is put aside */
export function along(view: StudyView, factor: number, held: readonly number[], most = MOST_LEVELS): Step[] {
  return someLevels(view, factor, most, view.best?.levels[factor] ?? 0).map((level) => ({
    level,
    value: view.factors[factor]!.levels[level]!.value,
    design: view.at(withLevel(held, factor, level)),
  }));
}
