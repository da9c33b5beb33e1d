/** Wrong counts per kind of body over one numeric factor, the others as in the best design. */
import type { Chart } from '../../charts/chart.js';
import { FEW } from '../../worst.js';
import { capital, count, formatEstimate, whoWords } from '../../words.js';
import { along } from '../along.js';
import { axisWords, factorTitle, levelWords, othersWords } from '../study-words.js';
import { type Known, type StudyView, isKnown } from '../view.js';
import { isBelow } from './curve.js';
import { LOOKS, lineKey, linesSpec } from './lines.js';

interface BodyPoint {
  readonly level: number;
  readonly x: number;
  readonly estimate: Known;
}

interface Body {
  readonly who: string;
  readonly points: readonly (Omit<BodyPoint, 'estimate'> & { readonly estimate: Known | null })[];
  /** Between its best and its worst point. */
  readonly moves: number;
  readonly best: BodyPoint;
  readonly worst: BodyPoint;
  /** Whether the intervals of the two lie apart. */
  readonly apart: boolean;
}

/** Kinds of body with at least two points of {@link FEW} visits or more: surely moved ones first, those moved most before others. */
function bodiesAlong(view: StudyView, factor: number): Body[] {
  const steps = along(view, factor, view.best!.levels);
  const names = [...new Set(steps.flatMap(({ design }) => design?.by_who.map(({ who }) => who) ?? []))];
  return names
    .flatMap((who): Body[] => {
      const points = steps.map(({ level, value, design }) => {
        const found = design?.by_who.find((one) => one.who === who);
        const e = found?.wrong_per_100_visits;
        return { level, x: value!, estimate: found && found.visits >= FEW && isKnown(e) ? e : null };
      });
      const known = points.filter((one): one is BodyPoint => one.estimate !== null);
      if (known.length < 2) return [];
      const best = known.reduce((a, b) => (b.estimate.value < a.estimate.value ? b : a));
      const worst = known.reduce((a, b) => (b.estimate.value > a.estimate.value ? b : a));
      const moves = worst.estimate.value - best.estimate.value;
      return [{ who, points, moves, best, worst, apart: isBelow(best.estimate, worst.estimate) }];
    })
    .sort((a, b) => Number(b.apart) - Number(a.apart) || b.moves - a.moves);
}

export function bodiesChart(id: string, view: StudyView, factor: number): Chart | null {
  if (view.best === null) return null;
  const all = bodiesAlong(view, factor);
  const shown = all.slice(0, LOOKS.length);
  const [first] = shown;
  if (first === undefined) return null;
  const own = view.factors[factor]!;
  const lines = shown.map(({ who, points }) => ({ name: whoWords(who), points }));
  const others = othersWords(view, [factor]);
  const bands = lines.some(({ points }) => points.some(({ estimate }) => estimate?.low != null));
  return {
    id,
    title: `${factorTitle(own)}: ${first.moves === 0 ? 'no kind of body is moved' : findingOf(view, factor, first)}`,
    summary: shown.map((body) => endsOf(view, factor, body)).join(' '),
    key: `${capital(lineKey(lines))}. ${bands ? 'Bands and thin lines: 95\u00a0% interval of each for itself.' : 'No intervals: there is one replicate only.'}${others === '' ? '' : ` ${capital(others)}.`}${all.length > shown.length ? ` Drawn are the ${shown.length} of ${count(all.length)} kinds that move most.` : ''} Points of fewer than ${FEW} visits are left out.`,
    ...linesSpec(lines, { x: axisWords(own), y: 'wrong per 100 visits', zero: true }),
  };
}

function endsOf(view: StudyView, factor: number, { who, best, worst }: Body): string {
  const say = [worst, best].map(
    ({ level, estimate }) => `${formatEstimate(estimate)} at ${levelWords(view.factors[factor], level)}`,
  );
  return `${capital(whoWords(who))}: at most ${say[0]}, at least ${say[1]}.`;
}

/** Of the first kind: where it is counted best and worst. */
function findingOf(view: StudyView, factor: number, { who, best, worst, apart }: Body): string {
  const own = view.factors[factor];
  const where = `${whoWords(who)} counted wrong most at ${levelWords(own, worst.level)}, least at ${levelWords(own, best.level)}`;
  return apart ? where : `${where}, perhaps by chance`;
}
