/**
 * The verdict in plain words, the same for page and terminal: an answer, what it rests on, what goes wrong most.
 *
 * A target that is missed makes the answer no; one that is undecided keeps it open; all met makes it yes. Where no
 * target was set we answer no only when even the low end of the interval is {@link HOPELESS_PER_100} or more.
 */
import type { Design } from '../scenario/schema.js';
import type { DoorMetrics, Estimate, Metrics } from '../score/metrics-schema.js';
import { worstKinds } from './worst.js';
import { capital, formatEstimate, headlineLogic, joined, mixWords, named, passageWords, plural } from './words.js';

/** Wrong per 100 crossings from which we advise against a design that has no target. An assumption of ours. */
export const HOPELESS_PER_100 = 10;
/** Doors named one by one in the verdict; more than these stand in the tables only. */
const DOORS_NAMED = 6;

export type Answer = 'yes' | 'no' | 'undecided' | 'unjudged';
export interface Verdict {
  readonly answer: Answer;
  /** 'No, not like this.' */
  readonly headline: string;
  /** Why, in one sentence. */
  readonly because: string;
  /** Each door's headline number under its mix. */
  readonly doors: readonly string[];
  /** The kind of passage that goes wrong most. */
  readonly worst: string;
}

type Outcome = Metrics['targets'][number]['outcome'];

const HEADLINES: Readonly<Record<Answer, string>> = {
  yes: 'Yes, on these assumptions.',
  no: 'No, not like this.',
  undecided: 'Not decided yet.',
  unjudged: 'No target was set, so this says neither yes nor no.',
};

const tooWrong = (e: Estimate): boolean => e.low !== null && e.low >= HOPELESS_PER_100;

function answerOf(metrics: Metrics): Answer {
  const outcomes = metrics.targets.map((t) => t.outcome);
  if (outcomes.includes('missed')) return 'no';
  if (outcomes.some((o) => o === 'undecided' || o === 'unknown')) return 'undecided';
  if (outcomes.length > 0) return 'yes';
  return tooWrong(metrics.house.wrong_per_100) ? 'no' : 'unjudged';
}

function becauseOf(metrics: Metrics): string {
  const total = metrics.targets.length;
  if (total === 0) {
    return tooWrong(metrics.house.wrong_per_100)
      ? `No target was set, but even the low end of the interval is ${HOPELESS_PER_100} or more wrong per 100 crossings; from there on we advise against a design (a threshold of ours).`
      : 'Add targets to the scenario and the verdict will answer to them.';
  }
  const word = (o: Outcome): string => (o === 'unknown' ? 'without a number' : o);
  const [first] = metrics.targets;
  if (total === 1 && first !== undefined) return `The one target set is ${word(first.outcome)}.`;
  const parts = (['missed', 'undecided', 'unknown', 'met'] as const)
    .map((o) => ({ o, n: metrics.targets.filter((t) => t.outcome === o).length }))
    .filter(({ n }) => n > 0)
    .map(({ o, n }) => `${n} ${word(o)}`);
  return `Of ${plural(total, 'target')}: ${joined(parts)}.`;
}

/** The headline numbers: one sentence when all doors have one mix, one a door otherwise. */
function doorSentences(design: Design, metrics: Metrics): string[] {
  const logic = headlineLogic(design);
  const ofLogic = metrics.doors.filter((d) => d.logic === logic);
  const mixOf = (d: DoorMetrics): string => {
    const door = design.doors.find((x) => x.name === d.door);
    return door === undefined ? 'an unknown mix' : mixWords(door.traffic.mix);
  };
  const number = (d: DoorMetrics): string => `${formatEstimate(d.wrong_per_100)} at door ${named(d.door)}`;
  const crossed = ofLogic.filter((d) => d.person_crossings > 0);
  const shown = crossed.slice(0, DOORS_NAMED);
  const rest = crossed.length - shown.length;
  const sentences: string[] = [];
  const mixes = new Set(ofLogic.map(mixOf));
  for (const mix of new Set(shown.map(mixOf))) {
    const same = shown.filter((d) => mixOf(d) === mix);
    sentences.push(
      `With ${mix}, the logic ${named(logic)} makes this many errors per 100 crossings: ${joined(same.map(number))}.`,
    );
  }
  for (const d of ofLogic.filter((o) => o.person_crossings === 0)) sentences.push(uncrossed(d, mixOf(d)));
  if (rest > 0) sentences.push(`${plural(rest, 'more door')} ${rest === 1 ? 'stands' : 'stand'} in the tables.`);
  if (ofLogic.length > 1) {
    const all = formatEstimate(metrics.house.wrong_per_100);
    sentences.push(`All doors together${mixes.size > 1 ? ', each with its mix' : ''}: ${all} wrong per 100 crossings.`);
  }
  return sentences;
}

/** A door nobody went through has no rate per 100 crossings, but may have been given tallies all the same. */
function uncrossed(d: DoorMetrics, mix: string): string {
  const door = `door ${named(d.door)}`;
  if (d.visits === 0 && d.tallies === 0) return `Nobody came to ${door} in this run, and nothing was counted there.`;
  const invented = formatEstimate(d.invented_per_hour);
  return `With ${mix}, nobody went through ${door} in this run; the logic ${named(d.logic)} all the same counted this many an hour: ${invented}.`;
}

/** When so many did not come, the mix that was walked is not the one that was asked for. */
const UNMET_WORTH_A_WORD = 0.01;

/** Parties that could not set out, where they are more than a few: fewer came, and others, than the scenario says. */
function unmetSentences(design: Design, metrics: Metrics): string[] {
  const logic = headlineLogic(design);
  return metrics.doors
    .filter((d) => d.logic === logic && d.unmet_parties > UNMET_WORTH_A_WORD * (d.unmet_parties + d.visits))
    .slice(0, DOORS_NAMED)
    .map(
      (d) =>
        `At door ${named(d.door)} ${plural(d.unmet_parties, 'party', 'parties')} did not come, because too few people were in the room to set out from; ${plural(d.visits, 'visit')} took place. Raise people_at_start, or lower the arrivals or the stay.`,
    );
}

function worstSentence(design: Design, metrics: Metrics): string {
  const logic = headlineLogic(design);
  const ranked = worstKinds(metrics.doors.filter((d) => d.logic === logic));
  const first = ranked[0];
  if (first === undefined) return 'No kind of passage has a number of its own in this run.';
  if (first.rate.wrong_per_100_visits.value === 0) return 'No kind of passage went wrong at all in this run.';
  const several = design.doors.length > 1;
  const say = (k: (typeof ranked)[number]): string =>
    `${passageWords(k.rate.who, k.rate.kind)}${several ? ` at door ${named(k.door)}` : ''}`;
  const sentence =
    `${capital(say(first))} go wrong most: ${formatEstimate(first.rate.wrong_per_100_visits)} ` +
    `per 100 visits of that kind, from ${plural(first.rate.visits, 'visit')}.`;
  const rivals = ranked.slice(1).filter((k) => k.overlapsFirst);
  if (rivals.length === 0) return sentence;
  const names = joined([...rivals.slice(0, 3).map(say), ...(rivals.length > 3 ? ['others'] : [])]);
  const reach = rivals.length === 1 ? `The interval of ${names} reaches` : `The intervals of ${names} reach`;
  return `${sentence} ${reach} as high, so the order among these is not certain.`;
}

export function verdictOf(design: Design, metrics: Metrics): Verdict {
  const answer = answerOf(metrics);
  return {
    answer,
    headline: HEADLINES[answer],
    because: becauseOf(metrics),
    doors: [...doorSentences(design, metrics), ...unmetSentences(design, metrics)],
    worst: worstSentence(design, metrics),
  };
}
