/** What a reader would be unwise to conclude from a study: a few lines, the most pressing first. */
import { FEW_REPLICATES } from '../few-replicates.js';
import type { Unwise } from '../unwise.js';
import { count, joined, plural } from '../words.js';
import { factorWords } from './study-words.js';
import type { StudyView } from './view.js';

/** Lines in all. */
const MOST = 4;

export function studyUnwise(view: StudyView): Unwise[] {
  const pressing = [openLine(view), failedLine(view), fewLine(view), unpairedLine(view), luckLine(view), LEVELS];
  return [...pressing.filter((line) => line !== null).slice(0, MOST - 1), HOUSE];
}

const LEVELS: Unwise = {
  that: 'a value between or beyond those tried does as well',
  why: 'Only the levels listed were simulated, and what was held may matter more.',
  section: 'limits',
};

const HOUSE: Unwise = {
  that: 'your house would do the same, or a life may hang on it',
  why: 'All designs share the model’s assumptions; a count that drifts is no roll-call.',
  section: 'cautions',
};

function openLine({ summary: { finished, designs } }: StudyView): Unwise | null {
  if (finished) return null;
  const open = designs.filter(({ state }) => state === 'unfinished').length;
  return {
    that: 'the order is final',
    why: `The study goes on: ${plural(open, 'design')} of ${count(designs.length)} may still change.`,
    section: 'limits',
  };
}

function failedLine({ summary: { designs } }: StudyView): Unwise | null {
  const failed = designs.filter(({ state }) => state === 'failed').length;
  return failed === 0
    ? null
    : {
        that: 'nothing better was in the list',
        why: `${plural(failed, 'design')} failed, and nothing is known of ${failed === 1 ? 'it' : 'them'}.`,
        section: 'ranking',
      };
}

function fewLine({ summary: { ranking }, ranked }: StudyView): Unwise | null {
  const n = ranking.replicates;
  if (ranked.length === 0 || n >= FEW_REPLICATES) return null;
  return {
    that: n < 2 ? 'the first of them is better than the second' : 'the intervals are exact',
    why:
      n < 2
        ? 'One replicate gives no interval: the order may be chance altogether.'
        : `They stand on ${plural(n, 'replicate')}; from so few an interval is itself a rough guess.`,
    section: 'limits',
  };
}

function unpairedLine({ factors }: StudyView): Unwise | null {
  const unpaired = factors.filter((factor) => factor.unpaired);
  return unpaired.length === 0
    ? null
    : {
        that: `${joined(unpaired.map(factorWords))} alone made the difference`,
        why: 'Its levels met other people: such a difference says as much about who came as about the design.',
        section: 'limits',
      };
}

function luckLine({ ranked, summary }: StudyView): Unwise | null {
  return ranked.length < 2 || summary.ranking.replicates < 2
    ? null
    : {
        that: 'the best design will keep its number',
        why: `Being first of ${count(ranked.length)} it owes a little to luck: run it again with another seed.`,
        section: 'limits',
      };
}
