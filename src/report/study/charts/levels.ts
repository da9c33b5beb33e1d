/** The ranked number at each level of a factor that is no number: dots with intervals. */
import type { Chart } from '../../charts/chart.js';
import { rankedDots, rankedRow } from '../../charts/ranked-dots.js';
import { capital, formatEstimate } from '../../words.js';
import { highOf, lowOf } from '../../worst.js';
import { along } from '../along.js';
import { factorTitle, levelWords, metricAxis, othersWords } from '../study-words.js';
import type { StudyView } from '../view.js';
import { findingOf, knownOf } from './curve.js';

const MOST = 12;
/** Longer names are cut in the picture; the tables have them whole. */
const LONGEST = 42;

export function levelsChart(id: string, view: StudyView, factor: number): Chart | null {
  const { best } = view;
  if (best === null) return null;
  const own = view.factors[factor]!;
  const steps = along(view, factor, best.levels, MOST);
  const known = knownOf(view, steps);
  if (known.length < 2) return null;
  const drawn = known.map(({ step, e }) => ({ step, e: view.drawn(e)! }));
  const rows = drawn.map(({ step, e }, row) => {
    const isBest = step.design === best;
    const name = `${levelWords(own, step.level)}${isBest ? ' (the best design)' : ''}`;
    return rankedRow(row, name, e, { note: `no. ${step.design!.number}`, worst: false, longest: LONGEST });
  });
  const top = Math.max(0.01, ...drawn.map(({ e }) => highOf(e)));
  const bottom = Math.min(0, ...drawn.map(({ e }) => lowOf(e)));
  const others = othersWords(view, [factor]);
  const missing = steps.length - known.length;
  return {
    id,
    title: `${factorTitle(own)}: ${findingOf(view, factor, known)}`,
    summary: known.map(({ step, e }) => `${levelWords(own, step.level)}: ${formatEstimate(e, view.as)}.`).join(' '),
    key: `Dot: estimate; line: 95\u00a0% interval of each design for itself; no.: number of the design.${others === '' ? '' : ` ${capital(others)}.`}${missing > 0 ? ` Without a number: ${missing} of ${steps.length} levels.` : ''}${own.levels.length > steps.length ? ` ${steps.length} of ${own.levels.length} levels are drawn.` : ''}`,
    ...rankedDots(rows, top, metricAxis(view), bottom),
  };
}
