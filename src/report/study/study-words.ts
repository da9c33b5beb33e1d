/** Designs, factors, differences and efforts of a study as a reader sees them. */
import type { Estimate } from '../../score/metrics-schema.js';
import type { Difference, StudyDesign, StudyFactor } from '../../study/summary-schema.js';
import { lengthWords, money } from '../effort-words.js';
import { metricWords } from '../sections/targets.js';
import { type EstimateWords, capital, count, estimateWords, joined, named } from '../words.js';
import type { StudyView } from './view.js';

const NBSP = '\u00a0';
/** Units that say nothing behind a number. */
const BARE = new Set(['', '1', 'share', 'm/m']);

/** 'height' for `height_m` in metres: the unit stands behind the values. */
export const factorWords = (factor: Pick<StudyFactor, 'name' | 'unit'>): string => named(bareName(factor));

/** The same where there is little room: a long name is cut. */
export const shortFactorWords = (factor: Pick<StudyFactor, 'name' | 'unit'>, longest: number): string =>
  named(cut(bareName(factor), longest));

const cut = (text: string, longest: number): string =>
  text.length <= longest ? text : `${text.slice(0, longest - 1)}…`;

/** The same at the start of a heading: 'Height'. */
export const factorTitle = (factor: Pick<StudyFactor, 'name' | 'unit'>): string => named(capital(bareName(factor)));

function bareName({ name, unit }: Pick<StudyFactor, 'name' | 'unit'>): string {
  const bare = unit !== null && name.endsWith(`_${unit}`) ? name.slice(0, -unit.length - 1) : name;
  return bare.replaceAll('_', ' ');
}

/** '0.9 m'; the name of a variant as it is. */
export function levelWords(factor: StudyFactor | undefined, level: number | undefined): string {
  const found = factor?.levels[level ?? -1];
  if (factor === undefined || found === undefined) return 'not known';
  const { unit } = factor;
  const bare = found.value === null || unit === null || BARE.has(unit);
  return `${named(found.label)}${bare ? '' : unit === 'deg' ? '°' : `${NBSP}${named(unit)}`}`;
}

/** A level where there is little room: a long name is cut. */
export function shortLevelWords(factor: StudyFactor, level: number, longest: number): string {
  const label = factor.levels[level]?.label ?? '';
  return label.length <= longest ? levelWords(factor, level) : named(cut(label, longest));
}

/** 'height, m': of an axis. */
export const axisWords = (factor: StudyFactor): string =>
  `${factorWords(factor)}${factor.unit === null || BARE.has(factor.unit) ? '' : `, ${named(factor.unit)}`}`;

/** 'height 0.9 m, sensor barrier'; of some factors only where they are given. */
export function designWords(
  { factors }: Pick<StudyView, 'factors'>,
  levels: readonly number[],
  only: readonly number[] = factors.map((_, f) => f),
): string {
  return only.map((f) => `${factorWords(factors[f]!)} ${levelWords(factors[f], levels[f])}`).join(', ');
}

/** 'the others as in the best design: spacing 6 cm and sensor barrier'; empty where there are no others. */
export function othersWords(view: StudyView, varied: readonly number[]): string {
  const { best, factors } = view;
  const others = factors.map((_, f) => f).filter((f) => !varied.includes(f));
  if (best === null || others.length === 0) return '';
  return `the others as in the best design: ${joined(others.map((f) => designWords(view, best.levels, [f])))}`;
}

/** 'wrong per 100 crossings': the ranked number without the place it is of. */
export function shortMetric(path: string): string {
  const words = metricWords(path);
  return words.slice(words.lastIndexOf(': ') + 1).trim();
}

/** The ranked number's axis: shares are percentages. */
export const metricAxis = (view: StudyView): string =>
  `${shortMetric(view.summary.rank_by.metric)}${view.as === 'share' ? ', %' : ''}`;

const asEstimate = (difference: Difference): Estimate => ({
  ...difference,
  method: 'none',
  n: 0,
  ...(difference.low === null && { reason: 'fewer than two replicates' }),
});

/** A difference of the ranked number, rounded to what its interval supports. */
export const differenceParts = (view: StudyView, difference: Difference): EstimateWords =>
  estimateWords(asEstimate(difference), view.as);

/** '+3.2 (2.1 to 4.3)', with the sign of the change. */
export function changeWords(view: StudyView, difference: Difference): string {
  const { value, range } = differenceParts(view, difference);
  const sign = difference.value > 0 ? '+' : '';
  return `${sign}${value ?? 'not known'} (${range ?? 'no interval'})`;
}

/** Whether an interval lies on one side of nothing. */
export const isSure = ({ low, high }: Difference): boolean => low !== null && high !== null && (low > 0 || high < 0);

export type CostKey = 'cost' | 'cable_m' | 'holes';
/** The first one known and varying is what "cheap" means. */
export const COSTS: readonly CostKey[] = ['cost', 'cable_m', 'holes'];
export const COST_WORDS: Readonly<Record<CostKey, string>> = { cost: 'cost', cable_m: 'cable', holes: 'holes' };

/** 'cost 120.00 crowns'; of holes and cables the like. */
export function effortWords({ effort }: StudyDesign, key: CostKey, currency: string | null): string {
  if (key === 'holes') return count(effort.holes);
  if (key === 'cable_m') return lengthWords(effort.cable_m);
  return effort.cost === null ? 'not known' : money(Math.round(effort.cost * 100), currency);
}

/** 'cost, crowns': of an axis or a column, whose numbers then need no currency. */
export const costTitle = (key: CostKey, currency: string | null): string =>
  `${COST_WORDS[key]}${key === 'cost' && currency !== null ? `, ${named(currency)}` : ''}`;

/** What designs can be told apart by in cheapness; null where all cost the same or nothing is known. */
export const mainCost = ({ summary }: StudyView): CostKey | null =>
  COSTS.find((key) => summary.front.by.includes(key)) ?? null;
