/** What a reader would be unwise to conclude from this very run: a few lines, the most pressing first, each with where to read on. */
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import type { DoorMetrics, Estimate, Metrics } from '../score/metrics-schema.js';
import { findEstimate } from '../score/targets.js';
import { spanWords, startWords } from './asked.js';
import { FEW_REPLICATES } from './few-replicates.js';
import { metricWords, moreWords } from './sections/targets.js';
import { whoIn, doingWords } from './who-words.js';
import { FEW } from './worst.js';
import { capital, decimal, estimateWords, headlineLogic, plural } from './words.js';

export interface Unwise {
  /** What somebody might conclude, as it stands after 'that'. */
  readonly that: string;
  /** Why not, with the run's own numbers. */
  readonly why: string;
  /** Id of the section that says more. */
  readonly section: string;
}

/** Lines in all. */
const MOST = 4;

/** The assumed crowd first, what no count is for last; between them the two most pressing of the rest. */
export function unwiseOf(design: Design, metrics: Metrics, figures: Pick<Figures, 'replayed' | 'activity'>): Unwise[] {
  const doors = metrics.doors.filter(({ logic }) => logic === headlineLogic(design));
  const crowd = figures.replayed ? null : crowdLine(design, metrics, doors, figures.activity ?? []);
  const pressing = [
    undecidedLine(metrics),
    fewReplicatesLine(metrics),
    zeroLine(metrics),
    longerLine(design, metrics, figures.replayed),
    fewVisitsLine(design, doors),
  ];
  const chosen = [crowd, ...pressing].filter((line) => line !== null).slice(0, MOST - 1);
  return [...chosen, LIFE];
}

const LIFE: Unwise = {
  that: 'a life may hang on it',
  why: 'A count that drifts is no roll-call: not for evacuation, access or capacity limits.',
  section: 'cautions',
};

/** Nobody has surveyed who comes: what half and double of an assumption make of the headline. */
function crowdLine(
  design: Design,
  { house }: Metrics,
  doors: readonly DoorMetrics[],
  activity: NonNullable<Figures['activity']>,
): Unwise {
  const that = `${design.household ? 'your house' : 'your door'} would do the same`;
  const assumed = design.household ? 'Who lives here and how they walk is' : 'Who comes and what they do is';
  const headline = estimateWords(house.wrong_per_100).value;
  const shares = doors.flatMap(({ by_assumed_share: all }) => all);
  const fallback = design.household || shares.length === 0 ? 'sources' : 'shares';
  const [half, double] = (['half', 'double'] as const).map((what) => activity.find((run) => run.what === what));
  if (headline !== null && !design.household && doors.length === 1) {
    const values = shares.flatMap(({ half: low, double: high }) => [low.value, high.value]).filter((x) => x !== null);
    const [low, high] = [Math.min(...values), Math.max(...values)].map((x) => decimal(x, 1));
    const moved = `halve or double one share of the mix, and the ${headline} wrong per 100 become ${low} to ${high}`;
    if (values.length > 0) return { that, why: `${assumed} assumed; ${moved}.`, section: 'shares' };
  }
  const [calm, busy] = [half, double].map((run) => (run ? estimateWords(run.wrong_per_100).value : null));
  if (headline === null || !calm || !busy) return { that, why: `${assumed} assumed, not surveyed.`, section: fallback };
  const moved = `half the activity gives ${calm} wrong per 100, double gives ${busy}, this run ${headline}`;
  return { that, why: `${assumed} assumed; ${moved}.`, section: 'activity' };
}

function undecidedLine({ targets }: Metrics): Unwise | null {
  const open = targets.filter(({ outcome }) => outcome === 'undecided' || outcome === 'unknown');
  const [first] = open;
  if (first === undefined) return null;
  const more =
    first.outcome === 'undecided' && first.more_replicates !== null
      ? ` ${capital(moreWords(first.more_replicates))}.`
      : '';
  const others =
    open.length > 1 ? ` So ${open.length === 2 ? 'is' : 'are'} ${plural(open.length - 1, 'more target')}.` : '';
  return {
    that: `the ${open.length < targets.length ? 'open ' : ''}target is met, or missed`,
    why: `\u201c${metricWords(first.metric)}\u201d is ${first.outcome === 'undecided' ? 'undecided' : 'without a number'}.${more}${others}`,
    section: 'answer',
  };
}

function fewReplicatesLine({ replicates }: Metrics): Unwise | null {
  if (replicates >= FEW_REPLICATES) return null;
  if (replicates < 2)
    return {
      that: 'the numbers are exact',
      why: 'One replicate gives no interval: how far chance moved them can’t be told.',
      section: 'words',
    };
  return {
    that: 'the intervals are exact',
    why: `They stand on ${plural(replicates, 'replicate')}; from so few an interval is itself a rough guess.`,
    section: 'words',
  };
}

/** A zero that a reader will take for never. */
function zeroLine(metrics: Metrics): Unwise | null {
  const { house, targets } = metrics;
  const asked = targets.map((t): [string, Estimate | null] => [
    `\u201c${metricWords(t.metric)}\u201d`,
    findEstimate(metrics, t.metric, t.at_most === undefined),
  ]);
  const all: [string, Estimate | null][] = [['\u201cwrong per 100 crossings\u201d', house.wrong_per_100], ...asked];
  const zero = all.find(([, e]) => e?.value === 0 && e.high !== null && e.high > 0);
  if (zero === undefined || zero[1] === null) return null;
  return {
    that: 'it never happens',
    why: `${capital(zero[0])} is 0 here, with up to ${decimal(zero[1].high ?? 0, 2)} inside its interval: none seen is not none.`,
    section: 'answer',
  };
}

/** Errors add up, and hours that were not simulated may be others. */
function longerLine(design: Design, { hours, rooms }: Metrics, replayed: Figures['replayed']): Unwise | null {
  const span = replayed ? `the ${decimal(replayed.span_h, 1)}\u00a0h of the log` : spanWords(hours);
  const begun = replayed ? '' : ` from ${startWords(design)}`;
  if (rooms.length > 0)
    return {
      that: 'a room’s count stays as good',
      why: `It was judged over ${span}${begun}; errors add up until something puts them right.`,
      section: 'rooms',
    };
  return hours >= 24
    ? null
    : {
        that: 'a whole day is like this',
        why: `Only ${span}${begun} ${replayed ? 'were counted' : 'were simulated'}.`,
        section: 'drift',
      };
}

/** Kinds of passage whose rate stands on a handful of visits. */
function fewVisitsLine(design: Design, doors: readonly DoorMetrics[]): Unwise | null {
  const few = doors
    .flatMap(({ by_kind }) => by_kind)
    .filter(({ visits, oversampled }) => visits > 0 && visits + (oversampled ?? 0) < FEW);
  const [first] = few;
  if (first === undefined) return null;
  const name = capital(doingWords(whoIn(design), first.who, first.kind));
  const others = few.length === 1 ? '' : `; so did ${plural(few.length - 1, 'other kind')} of passage`;
  return {
    that: 'you know who goes wrong',
    why: `${name} came fewer than ${FEW} times${others}.`,
    section: 'whom',
  };
}
