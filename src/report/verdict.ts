/**
 * The verdict in plain words, the same for page and terminal: should this be built, why, what goes wrong most, who sits in
 * the dark, and what the numbers hold for.
 *
 * A target that is missed makes the answer no; one that is undecided keeps it open; all met makes it yes. Where no
 * target was set we answer no only when even the low end of the interval is {@link HOPELESS_PER_100} or more.
 */
import type { Design } from '../scenario/schema.js';
import type { DoorMetrics, Estimate, Metrics, TargetOutcome } from '../score/metrics-schema.js';
import type { Figures } from '../score/figures.js';
import { findEstimate } from '../score/targets.js';
import { animalsWarning } from './animals.js';
import { causesOf, rivalsOf, weekWords, worstDoor, wrongPerWeek } from './causes.js';
import { livesHere, walkingWords } from './household-words.js';
import { OUTCOME_WORDS, limitWords, metricWords } from './sections/targets.js';
import { activitySentence } from './verdict-activity.js';
import { darkSentence, ledgerSentence, otherRoute } from './verdict-rooms.js';
import { waitWords } from './wait-words.js';
import { mainCauses } from './why-words.js';
import { doingWords, whoIn } from './who-words.js';
import { capital, count, decimal, formatEstimate, headlineLogic, joined, mixWords, named, plural } from './words.js';

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
  /** What was asked, each with its number; the first few of many targets. */
  readonly asked: readonly string[];
  /** The door where most goes wrong in a week, and the kind of passage that does most of it. */
  readonly worst: string;
  /** Kinds of passage that may be as bad as that one. */
  readonly rivals: string | null;
  /** The main causes, with their numbers a week. */
  readonly why: string | null;
  /** The room that leaves people in the dark most; whether another ledger does better. */
  readonly rooms: readonly string[];
  /** Whether the answers stand at half and at double the assumed activity. */
  readonly activity: string | null;
  /** What else could be built, where a count is only wanted to know whether anyone is there. */
  readonly other_route: string | null;
  /** Animals of the household that hear the sensors. */
  readonly animals: string | null;
  /** What the numbers hold for: each door's under its mix, or who lives in the house. */
  readonly doors: readonly string[];
}

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
  const word = (o: TargetOutcome): string => (o === 'unknown' ? 'without a number' : o);
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

/** The door where most goes wrong, and who does what there to make it so. */
function worstOf(design: Design, metrics: Metrics): Pick<Verdict, 'worst' | 'rivals'> {
  const alone = (worst: string): Pick<Verdict, 'worst' | 'rivals'> => ({ worst, rivals: null });
  const door = worstDoor(design, metrics);
  const [first, ...others] =
    door === undefined ? [] : causesOf([door]).filter(({ rate }) => rate.wrong_per_week.value !== null);
  const wrong = door === undefined ? null : wrongPerWeek(door, metrics);
  if (door === undefined || first === undefined || wrong === null)
    return alone('No kind of passage has a number of its own in this run.');
  if (wrong === 0) return alone('Nothing was counted wrong at any door in this run.');
  const opening = openingOf(design, metrics, door, wrong);
  if (first.rate.wrong_per_week.value === 0) return alone(`${opening} They belong to no visit: nobody was there.`);
  const who = whoIn(design);
  const say = ({ rate: k }: typeof first): string => doingWords(who, k.who, k.kind);
  const most = formatEstimate(first.rate.wrong_per_week);
  // A rare kind's number rests on extra visits, too, and can come out above what the few visits of a short run gave.
  const share =
    (first.rate.wrong_per_week.value ?? 0) > wrong
      ? `estimated at ${most} from extra visits of theirs`
      : `with ${most} of them`;
  const kind = `Worst there: ${say(first)}, ${share}, ` + `${firstWrongWords(first.rate.first_wrong_median_days)}.`;
  const rivals = rivalsOf([first, ...others]);
  if (rivals.length === 0) return alone(`${opening} ${kind}`);
  const names = joined([...rivals.slice(0, 3).map(say), ...(rivals.length > 3 ? ['others'] : [])]);
  const reach = rivals.length === 1 ? `The interval of ${names} reaches` : `The intervals of ${names} reach`;
  return { worst: `${opening} ${kind}`, rivals: `${reach} as high, so the order among these is not certain.` };
}

/** How many wrong counts the worst door makes; where it is the only one, its rate is the headline's and told there. */
function openingOf({ doors }: Design, metrics: Metrics, door: DoorMetrics, wrong: number): string {
  const week = weekWords(metrics.hours);
  if (doors.length === 1) return `Door ${named(door.door)} makes about ${amount(wrong)} wrong counts ${week}.`;
  const rate = door.wrong_per_100.value === null ? '' : `, ${formatEstimate(door.wrong_per_100)} per 100 crossings`;
  return `Most goes wrong at door ${named(door.door)}: about ${amount(wrong)} wrong counts ${week}${rate}.`;
}

function firstWrongWords(e: Estimate): string {
  return e.value === null && e.low === null
    ? 'the wait for the first of them not known'
    : `the first after a median of ${waitWords(e, 'days')}`;
}

const amount = (x: number): string => (x >= 10 ? count(x) : decimal(x, x >= 1 ? 1 : 2));

/** Targets told with their numbers; those that decide come first. */
const TARGETS_TOLD = 3;
const DECIDES: Readonly<Record<TargetOutcome, number>> = { missed: 0, unknown: 1, undecided: 2, met: 3 };

function targetSentences(metrics: Metrics): string[] {
  const told = [...metrics.targets].sort((a, b) => DECIDES[a.outcome] - DECIDES[b.outcome]);
  return told.slice(0, TARGETS_TOLD).map((t) => {
    const e = findEstimate(metrics, t.metric, t.at_most === undefined);
    const what = capital(metricWords(t.metric));
    if (e === null) return `${what}: this run has no such number.`;
    const as = t.metric.endsWith('_share') ? 'share' : 'number';
    return `${what} is ${formatEstimate(e, as)}, where ${limitWords(t, as)} was asked: ${OUTCOME_WORDS[t.outcome]}.`;
  });
}

function whySentenceOf(design: Design, metrics: Metrics): string | null {
  const why = metrics.why.find(({ door, logic }) => door === null && logic === headlineLogic(design));
  return why ? mainCauses(why, metrics.hours) : null;
}

const here = (text: string | null): string[] => (text === null ? [] : [text]);

/** @param activity runs of half and double the activity, where there are: then the verdict says whether its answers stand */
export function verdictOf(design: Design, metrics: Metrics, activity: Figures['activity'] = []): Verdict {
  const answer = answerOf(metrics);
  const { household } = design;
  return {
    answer,
    headline: HEADLINES[answer],
    because: becauseOf(metrics),
    asked: targetSentences(metrics),
    ...worstOf(design, metrics),
    why: whySentenceOf(design, metrics),
    rooms: [...here(darkSentence(design, metrics)), ...here(ledgerSentence(design, metrics))],
    activity: activitySentence(design, metrics, activity),
    other_route: otherRoute(design),
    animals: animalsWarning(design),
    doors: household
      ? [...livesHere(household), walkingWords(design, household, metrics), ...householdDoors(design, metrics)]
      : [...doorSentences(design, metrics), ...unmetSentences(design, metrics)],
  };
}

/** Doors nobody went through, and all of them together: the house has no mix to tell. */
function householdDoors(design: Design, metrics: Metrics): string[] {
  const unused = metrics.doors.filter((d) => d.logic === headlineLogic(design) && d.person_crossings === 0);
  const all = `By the logic ${named(headlineLogic(design))}, all doors together: ${formatEstimate(metrics.house.wrong_per_100)} wrong per 100 crossings.`;
  return [
    all,
    ...(unused.length > 0
      ? [`Nobody went through ${joined(unused.map((d) => `door ${named(d.door)}`))} in this run.`]
      : []),
  ];
}

/** The verdict as one paragraph, and what it holds for and what else to know as others: the same for page and terminal. */
export function verdictParagraphs(v: Verdict): string[] {
  const first = [
    v.because,
    ...v.asked,
    v.worst,
    ...here(v.rivals),
    ...here(v.why),
    ...v.rooms,
    ...here(v.activity),
  ].join(' ');
  return [first, v.doors.join(' '), ...here(v.other_route), ...here(v.animals)];
}
