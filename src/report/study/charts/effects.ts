/** What a step of a factor does, averaged over the others: dots with intervals about nothing. */
import type { MainEffect } from '../../../study/summary-schema.js';
import type { Chart } from '../../charts/chart.js';
import { rankedDots, rankedRow } from '../../charts/ranked-dots.js';
import { capital } from '../../words.js';
import {
  changeWords,
  factorWords,
  isSure,
  levelWords,
  metricAxis,
  shortFactorWords,
  shortLevelWords,
} from '../study-words.js';
import type { StudyView } from '../view.js';

const MOST = 12;
/** Letters in the picture, so that steps of one factor stay apart; the table has them whole. */
const FACTOR = 14;
const FROM = 11;
const TO = 17;
const LONGEST = 60;

/** 'sensor: from barrier to ranger'. */
export function stepWords(view: StudyView, { factor, level, against }: MainEffect): string {
  const own = view.factors[factor];
  if (own === undefined) return 'not known';
  return `${factorWords(own)}: from ${levelWords(own, against)} to ${levelWords(own, level)}`;
}

/** 'sensor: light barri… → time-of-flight on…'. */
function drawnStep(view: StudyView, { factor, level, against }: MainEffect): string {
  const own = view.factors[factor];
  if (own === undefined) return 'not known';
  return `${shortFactorWords(own, FACTOR)}: ${shortLevelWords(own, against, FROM)} → ${shortLevelWords(own, level, TO)}`;
}

export function effectsChart(id: string, view: StudyView): Chart | null {
  const all = largestFirst(view.summary.effects.main);
  const shown = all.slice(0, MOST);
  const [first] = shown;
  if (first === undefined) return null;
  const times = view.as === 'share' ? 100 : 1;
  const rows = shown.map((step, i) => {
    const { value, low, high } = step.change;
    const scaled = (x: number | null): number | null => (x === null ? null : x * times);
    return rankedRow(
      i,
      drawnStep(view, step),
      { value: value * times, low: scaled(low), high: scaled(high), method: 'none', n: step.designs },
      { note: `n ${step.designs}`, worst: false, longest: LONGEST },
    );
  });
  const bottom = Math.min(0, ...rows.map(({ low }) => low));
  const top = Math.max(0, ...rows.map(({ high }) => high));
  const surely = all.filter(({ change }) => isSure(change)).length;
  return {
    id,
    title:
      surely === 0
        ? 'No step of a factor can be told from chance'
        : `Largest step: ${stepWords(view, all.find(({ change }) => isSure(change))!)}`,
    summary: shown.map((step) => `${capital(stepWords(view, step))}: ${changeWords(view, step.change)}.`).join(' '),
    key: `Change of ${metricAxis(view)} from the first level to the second, averaged over pairs of designs that differ in nothing else (n pairs); right of the grey line it grows.${first.change.low === null ? ' No intervals: there is one replicate only.' : ' Lines: intervals that hold all at once with 95\u00a0% confidence.'}${all.length > shown.length ? ` The ${MOST} largest of ${all.length} are drawn.` : ''}`,
    ...rankedDots(rows, top === bottom ? bottom + 1 : top, `change of ${metricAxis(view)}`, bottom),
  };
}

export const largestFirst = (steps: readonly MainEffect[]): MainEffect[] =>
  [...steps].sort((a, b) => Math.abs(b.change.value) - Math.abs(a.change.value));
