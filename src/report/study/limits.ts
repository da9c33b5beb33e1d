/** What a study can't tell, as far as it applies to this one. */
import type { StudySummary } from '../../study/summary-schema.js';
import { FEW_REPLICATES } from '../few-replicates.js';
import { count, decimal, joined, plural } from '../words.js';
import { factorWords } from './study-words.js';
import type { StudyView } from './view.js';

export function studyLimits(view: StudyView): string[] {
  const { summary } = view;
  return [
    ...stateLimits(summary),
    ...replicateLimits(view),
    ...unpairedLimits(view),
    ...chanceLimits(view),
    'Only the levels listed were tried. Nothing is known between them or beyond them, however smooth a curve looks, and another factor that was held may matter more than all that varied.',
    'The set of designs that may be the best is about the ranked number alone: not cost, not another room, not who is counted wrong.',
    ...costLimits(view),
    `Wrong counts by who came are under the first logic${summary.logics.length > 1 ? `, while ${plural(summary.logics.length, 'logic')} were simulated` : ''}.`,
    'All designs share the model’s assumptions, and what is wrong in them is wrong for all alike. Intervals cover chance in the simulation only. Run the design you choose by itself: its report lists assumptions, sources and what was not modelled.',
  ];
}

function stateLimits({ finished, designs }: StudySummary): string[] {
  const failed = designs.filter(({ state }) => state === 'failed').length;
  const unfinished = designs.filter(({ state }) => state === 'unfinished').length;
  return [
    ...(finished
      ? []
      : [
          `The study is not finished: ${plural(unfinished, 'design')} of ${count(designs.length)} may still change, and the comparison rests on the few replicates that all ranked designs have.`,
        ]),
    ...(failed > 0
      ? [`${plural(failed, 'design')} failed. Nothing is known of them; one of them may be the best.`]
      : []),
  ];
}

function replicateLimits({ summary, ranked }: StudyView): string[] {
  const { replicates, designs, ranking } = summary;
  const n = ranking.replicates;
  const lines: string[] = [];
  if (ranked.length > 0 && n < 2)
    lines.push('One replicate gives no interval and no test: which design comes first may be chance altogether.');
  else if (ranked.length > 0 && n < FEW_REPLICATES)
    lines.push(
      `${plural(n, 'replicate')} in common are few (we say so below ${FEW_REPLICATES}): intervals are wide, and rest on replicates being spread about normally, which so few can’t show.`,
    );
  const budget = designs.filter(({ ended }) => ended === 'replicates' || ended === 'passages').length;
  if (budget > 0)
    lines.push(
      `${plural(budget, 'design')} ended because a budget was used up, not because the interval was narrow: ±${decimal(replicates.half_width ?? Number.NaN, 4)} is not reached there.`,
    );
  if (replicates.fixed === null)
    lines.push(
      'A design ends when its interval looks narrow enough, and an interval may look narrow by chance: such intervals hold a little less often than 95 times in 100. Designs that ended early also cut the replicates that all can be compared on.',
    );
  return lines;
}

function unpairedLimits({ factors }: StudyView): string[] {
  const unpaired = factors.filter((factor) => factor.unpaired);
  return unpaired.length === 0
    ? []
    : [
        `${joined(unpaired.map(factorWords))} ${unpaired.length === 1 ? 'changes' : 'change'} the crowd itself, so ${unpaired.length === 1 ? 'its' : 'their'} levels met different people: such differences carry the chance of both crowds, and say as much about who comes as about the design.`,
      ];
}

function chanceLimits({ ranked, summary }: StudyView): string[] {
  if (ranked.length < 2 || summary.ranking.replicates < 2) return [];
  const off = Math.round(ranked.length / 20);
  return [
    `Each design’s own interval is for itself: about one such interval in 20 misses the truth${off > 1 ? `, of these ${count(ranked.length)} about ${count(off)}` : ''}. Only the differences to the best, and the effects, hold all at once.`,
    'The best design owes a little to luck: being first among several, its own estimate is more likely too good than too bad. Run it again with another seed before you rely on the number.',
  ];
}

function costLimits({ summary: { designs } }: StudyView): string[] {
  const cable = designs.some(({ effort }) => effort.cable_m === null);
  const cost = designs.some(({ effort }) => effort.cost === null);
  return [
    ...(cable
      ? [
          'Without a plan of the house there are no lengths of cable: designs that differ in cable only look alike in effort, and a cost is without cables.',
        ]
      : []),
    cost
      ? 'Without prices in the scenario there is no cost.'
      : 'Costs are as good as the scenario’s prices; where it gives none, made-up ones stand in, which are nobody’s. The report of a single run says which.',
    'Holes, cable and cost are those of drilled mounting.',
  ];
}
