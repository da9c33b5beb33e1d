/** Which factors matter most: how far the ranked number moves over a factor's levels, averaged over the other factors. */
import type { MainEffect } from '../../study/summary-schema.js';
import { isSure } from './study-words.js';
import type { StudyView } from './view.js';

export interface FactorWeight {
  readonly factor: number;
  /** From its least to its greatest level, in the metric's unit: steps added up, so it has no interval of its own. */
  readonly span: number;
  /** Whether some step's interval lies on one side of nothing. */
  readonly sure: boolean;
  /** Its largest step. */
  readonly largest: MainEffect;
}

/** Factors whose levels were compared, the heaviest first. */
export function factorWeights({ summary }: Pick<StudyView, 'summary'>): FactorWeight[] {
  const { main } = summary.effects;
  const factors = [...new Set(main.map(({ factor }) => factor))];
  return factors
    .map((factor): FactorWeight => {
      const steps = main.filter((step) => step.factor === factor);
      // A level that no step leads to starts anew from nothing.
      const at = new Map<number, number>();
      for (const { level, against, change } of steps) {
        if (!at.has(against)) at.set(against, 0);
        at.set(level, at.get(against)! + change.value);
      }
      const size = ({ change }: MainEffect): number => Math.abs(change.value);
      return {
        factor,
        span: Math.max(...at.values()) - Math.min(...at.values()),
        sure: steps.some(({ change }) => isSure(change)),
        largest: steps.reduce((most, step) => (size(step) > size(most) ? step : most)),
      };
    })
    .sort((a, b) => b.span - a.span || a.factor - b.factor);
}

/** All factors with more than one level, the heaviest first, those never compared last. */
export function factorsByWeight(view: StudyView): number[] {
  const weighed = factorWeights(view).map(({ factor }) => factor);
  const all = view.factors.map((_, f) => f).filter((f) => view.factors[f]!.levels.length > 1);
  return [...weighed.filter((f) => all.includes(f)), ...all.filter((f) => !weighed.includes(f))];
}

/** Whether a factor's levels are numbers, so that it can be an axis. */
export const isNumeric = ({ levels }: StudyView['factors'][number]): boolean =>
  levels.every(({ value }) => value !== null);
