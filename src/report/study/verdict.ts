/** What a study says in plain words: the best design, what can't be told from it, what matters, what it costs. */
import { metricWords } from '../sections/targets.js';
import { capital, count, decimal, formatEstimate, joined, plural } from '../words.js';
import {
  COST_WORDS,
  changeWords,
  designWords,
  differenceParts,
  effortWords,
  factorWords,
  isSure,
  levelWords,
  mainCost,
} from './study-words.js';
import type { StudyView } from './view.js';
import { factorWeights } from './weights.js';

export interface StudyVerdict {
  readonly headline: string;
  /** How far an unfinished study is; null when it is finished. */
  readonly unfinished: string | null;
  readonly paragraphs: readonly string[];
}

/** Factors told of in the verdict. */
const TOLD = 3;

export function studyVerdict(view: StudyView): StudyVerdict {
  const { best, ranked, perhaps } = view;
  const unfinished = unfinishedWords(view);
  if (best === null)
    return { headline: 'No design has a number yet.', unfinished, paragraphs: [failedWords(view)].filter(isSaid) };
  const paragraphs = [
    `Design ${best.number}: ${designWords(view, best.levels)}.`,
    bestWords(view),
    ...rivalWords(view),
    worstWords(view),
    matterWords(view),
    cheapWords(view),
    failedWords(view),
  ].filter(isSaid);
  const so = unfinished === null ? '' : 'So far: ';
  const others = perhaps.length - 1;
  const headline =
    ranked.length === 1
      ? `${so}design ${best.number} is the only one with a number.`
      : !hasIntervals(view)
        ? `${so}design ${best.number} comes first of ${count(ranked.length)}, perhaps by chance.`
        : others === 0
          ? `${so}design ${best.number} is the best of ${count(ranked.length)}, with 95\u00a0% confidence.`
          : `${so}design ${best.number} comes first of ${count(ranked.length)}; ${others === 1 ? 'one other' : `${count(others)} others`} may be as good or better.`;
  return { headline: capital(headline), unfinished, paragraphs };
}

const isSaid = (words: string | null): words is string => words !== null;

/** With one replicate there is nothing to tell chance by. */
export const hasIntervals = ({ summary }: StudyView): boolean => summary.ranking.replicates > 1;

function unfinishedWords({ summary: { finished, cells, designs } }: StudyView): string | null {
  if (finished) return null;
  const done = designs.filter(({ state }) => state === 'done').length;
  return `This study is not finished: ${count(done)} of ${plural(designs.length, 'design')} are done, and ${count(cells.done)} of at most ${plural(cells.most, 'cell')}. Everything below is about what is there, and may change.`;
}

function bestWords(view: StudyView): string {
  const { summary, best } = view;
  const e = view.estimate(best!);
  const number = e === null ? 'not known' : formatEstimate(e, view.as);
  const { metric, best: end } = summary.rank_by;
  return `${capital(metricWords(metric))} comes to ${number}, from ${plural(best!.replicates, 'replicate')}; ${end === 'least' ? 'less' : 'more'} is better. Whether that is good enough is yours to say: the best of what was tried can still be bad.`;
}

function rivalWords(view: StudyView): string[] {
  const { perhaps, ranked, summary } = view;
  if (ranked.length < 2) return ['It is the only design with a number, so there is nothing to compare it with.'];
  if (!hasIntervals(view))
    return ['All designs share one replicate only, which gives no intervals: which one is better may be chance.'];
  const on = `on the ${plural(summary.ranking.replicates, 'replicate')} that all of them have`;
  if (perhaps.length === 1)
    return [
      `No other design can be taken for it: with 95\u00a0% confidence it is the best of the ${ranked.length} in this number, ${on}.`,
    ];
  const others = perhaps.length - 1;
  return [
    `${others === 1 ? 'One other design' : `${count(others)} other designs`} can’t be told from it: with 95\u00a0% confidence the truly best of the ${ranked.length} in this number is among these ${perhaps.length}, ${on}.`,
  ];
}

function worstWords(view: StudyView): string | null {
  const worst = view.ranked[view.ranked.length - 1];
  if (worst?.worse_than_best == null) return null;
  const { value, range } = differenceParts(view, worst.worse_than_best);
  const by = `${value ?? 'an unknown amount'} (${range === null ? 'no interval' : `${range}, with 95\u00a0% confidence for all differences at once`})`;
  const design = view.design(worst);
  const unsure = hasIntervals(view) && !isSure(worst.worse_than_best);
  return `The worst, design ${design.number} (${designWords(view, design.levels)}), is worse than it by ${by}${unsure ? ', which may be chance' : ''}.`;
}

function matterWords(view: StudyView): string | null {
  const weights = factorWeights(view);
  const [first] = weights;
  if (first === undefined) return null;
  const surely = weights.filter(({ sure }) => sure);
  const unsure = weights.filter(({ sure }) => !sure);
  const nothing = (all: typeof weights): string => joined(all.map(({ factor }) => factorWords(view.factors[factor]!)));
  if (!hasIntervals(view))
    return `What seems to matter most is ${factorWords(view.factors[first.factor]!)}, but one replicate can’t tell that from chance.`;
  if (surely.length === 0) return `Of no factor can it be told from chance that it matters (${nothing(weights)}).`;
  const steps = surely.slice(0, TOLD).map(({ factor, largest, span }) => {
    const own = view.factors[factor]!;
    const scaled = view.as === 'share' ? span * 100 : span;
    const whole =
      own.levels.length > 2 ? `${decimal(scaled, scaled < 1 ? 2 : 1)} between its extremes; largest step ` : '';
    return `${factorWords(own)}: ${whole}from ${levelWords(own, largest.against)} to ${levelWords(own, largest.level)} ${changeWords(view, largest.change)}`;
  });
  const rest = unsure.length > 0 ? ` Not told from chance: ${nothing(unsure)}.` : '';
  return `What matters most${view.factors.length > 1 ? ', averaged over the other factors' : ''}: ${steps.join('; ')}.${rest}`;
}

/** Of those that may be the best, the cheapest. */
function cheapWords(view: StudyView): string | null {
  const key = mainCost(view);
  const { best, perhaps, summary } = view;
  if (key === null || best === null || !hasIntervals(view)) return null;
  if (perhaps.length < 2)
    return `Its ${COST_WORDS[key]}: ${effortWords(best, key, summary.currency)}. What less effort buys is under “What it takes”.`;
  const designs = perhaps.map((row) => view.design(row));
  const cheapest = designs.reduce((least, one) =>
    (one.effort[key] ?? Infinity) < (least.effort[key] ?? Infinity) ? one : least,
  );
  const costs = `${COST_WORDS[key]} ${effortWords(cheapest, key, summary.currency)}`;
  const equal = designs.filter(({ effort }) => effort[key] === cheapest.effort[key]).length;
  if (equal === designs.length)
    return `All of them come to the same ${COST_WORDS[key]}: ${effortWords(cheapest, key, summary.currency)}.`;
  if (cheapest === best) return `The first of them is the cheapest of them too: ${costs}.`;
  const e = view.estimate(cheapest);
  const behind = perhaps.find(({ design }) => design === cheapest.number)?.worse_than_best;
  const parts = behind ? differenceParts(view, behind) : null;
  const more =
    parts === null
      ? ''
      : `, worse than the first by ${parts.value ?? 'an unknown amount'} (${parts.range ?? 'no interval'})`;
  return `The cheapest of these ${designs.length} is design ${cheapest.number} (${designWords(view, cheapest.levels)}): ${costs}, against ${effortWords(best, key, summary.currency)} of the first${e === null ? '' : `; it comes to ${formatEstimate(e, view.as)}${more}`}.`;
}

function failedWords({ summary: { designs } }: StudyView): string | null {
  const failed = designs.filter(({ state }) => state === 'failed').length;
  return failed === 0
    ? null
    : `${plural(failed, 'design')} failed and ${failed === 1 ? 'is' : 'are'} in no comparison.`;
}
