/** The ranked number over one numeric factor, a line for each of a few levels of another one. */
import type { Chart } from '../../charts/chart.js';
import { highOf, lowOf } from '../../worst.js';
import { capital, formatEstimate, plural } from '../../words.js';
import { withLevel } from '../../../study/plan/factor.js';
import { type Step, along, someLevels } from '../along.js';
import {
  axisWords,
  designWords,
  factorTitle,
  factorWords,
  levelWords,
  metricAxis,
  othersWords,
} from '../study-words.js';
import type { Known, StudyView } from '../view.js';
import { LOOKS, type Line, lineKey, linesSpec } from './lines.js';

/** @param by the factor that has a line for each level; null: one line, the best design's */
export function curveChart(id: string, view: StudyView, factor: number, by: number | null): Chart | null {
  const { best } = view;
  if (best === null) return null;
  const own = view.factors[factor]!;
  const levels: readonly (number | null)[] =
    by === null ? [null] : someLevels(view, by, LOOKS.length, best.levels[by]!);
  const drawn = levels.map((level): { steps: Step[]; line: Line } => {
    const held = by === null || level === null ? best.levels : withLevel(best.levels, by, level);
    const steps = along(view, factor, held);
    return {
      steps,
      line: {
        name: level === null || by === null ? 'the best design' : designWords(view, held, [by]),
        points: steps.map(({ value, design }) => ({ x: value!, estimate: view.drawn(view.estimate(design)) })),
      },
    };
  });
  const shown = drawn.filter(({ line }) => line.points.some(({ estimate }) => estimate !== null));
  const main = drawn[levels.indexOf(by === null ? null : best.levels[by]!)] ?? drawn[0]!;
  const known = knownOf(view, main.steps);
  if (known.length < 2) return null;
  const lines = shown.map(({ line }) => line);
  const all = lines.flatMap(({ points }) => points);
  const missing = all.filter(({ estimate }) => estimate === null).length;
  const bands = all.some(({ estimate }) => estimate?.low != null);
  const others = othersWords(view, by === null ? [factor] : [factor, by]);
  const less = [
    own.levels.length > main.steps.length ? `${main.steps.length} of its ${own.levels.length} values` : null,
    by !== null && view.factors[by]!.levels.length > lines.length
      ? `${lines.length} of the ${view.factors[by]!.levels.length} levels of ${factorWords(view.factors[by]!)}`
      : null,
  ].filter((one) => one !== null);
  return {
    id,
    title: `${factorTitle(own)}: ${findingOf(view, factor, known)}`,
    summary: `${lines.length > 1 ? `The line of the best design, ${main.line.name}. ` : ''}${known.map(({ step, e }) => `At ${levelWords(own, step.level)}: ${formatEstimate(e, view.as)}.`).join(' ')}`,
    key: `${lines.length > 1 ? `${capital(lineKey(lines))}. ` : ''}${bands ? 'Bands and thin lines: 95\u00a0% interval of each design for itself.' : 'No intervals: there is one replicate only.'}${others === '' ? '' : ` ${capital(others)}.`}${missing > 0 ? ` ${plural(missing, 'point')} missing: combinations left out, failed or not begun.` : ''}${less.length > 0 ? ` Drawn are ${less.join(' and ')}.` : ''} Between points, lines only guide the eye.`,
    ...linesSpec(lines, { x: axisWords(own), y: metricAxis(view), zero: view.summary.rank_by.best === 'least' }),
  };
}

interface KnownStep {
  readonly step: Step;
  readonly e: Known;
}

export function knownOf(view: StudyView, steps: readonly Step[]): KnownStep[] {
  return steps.flatMap((step) => {
    const e = view.estimate(step.design);
    return e === null ? [] : [{ step, e }];
  });
}

/** Whether the whole interval of a lies below that of b; without intervals nobody knows. */
export const isBelow = (a: Known, b: Known): boolean => a.high !== null && b.low !== null && a.high < b.low;

/** Where the best design's line is best and where worst, unless all intervals share a value. */
export function findingOf(view: StudyView, factor: number, known: readonly KnownStep[]): string {
  const own = view.factors[factor]!;
  const lows = Math.max(...known.map(({ e }) => lowOf(e)));
  const highs = Math.min(...known.map(({ e }) => highOf(e)));
  if (known.every(({ e }) => e.low !== null) && lows <= highs) return 'no level stands out from the others';
  const best = known.reduce((a, b) => (view.better(b.e.value, a.e.value) ? b : a));
  const worst = known.reduce((a, b) => (view.better(a.e.value, b.e.value) ? b : a));
  const apart = view.better(1, 2) ? isBelow(best.e, worst.e) : isBelow(worst.e, best.e);
  return `${apart ? 'best' : 'seems best'} at ${levelWords(own, best.step.level)}, worst at ${levelWords(own, worst.step.level)}`;
}
