/** What the comparison says in plain words: which run is best at what, how surely, and what the others are better at. */
import { effortOf } from '../../effort/effort.js';
import { holesIn } from '../../effort/share.js';
import type { RoomMetrics } from '../../score/metrics-schema.js';
import { lengthWords, madeUpMark, money } from '../effort-words.js';
import { capital, count, formatEstimate, headlineLogic, joined, named } from '../words.js';
import { type Best, type Rival, bestOf } from './best.js';
import { difference, enoughReplicates, judged } from './differences.js';
import {
  ALL_ROOMS,
  type CompareMeasure,
  WRONG,
  allHaveRooms,
  measureGroups,
  placeWords,
  roomMeasures,
} from './measures.js';
import { builtDifferences, valueWords } from './keys.js';
import { type CompareRun, headlineLedger, labelWords } from './runs.js';
import { labels, sizeWords } from './words.js';

export interface CompareVerdict {
  readonly headline: string;
  /** Whether some run is told from all others. */
  readonly told: boolean;
  readonly paragraphs: readonly string[];
}

const PER_100 = 'per 100 crossings';

export function compareVerdict(runs: readonly CompareRun[]): CompareVerdict {
  const wrong = bestOf(WRONG, runs);
  const rooms = allHaveRooms(runs) ? bestOf(ALL_ROOMS, runs) : null;
  const paragraphs = [
    designsWords(runs),
    wrong === null ? null : wrongWords(wrong, runs.length),
    ...(rooms === null ? [] : [roomWords(rooms, runs.length), darkWords(runs)]),
    ...(wrong === null ? [] : [othersWords(wrong.run, runs)]),
    effortWords(runs),
  ].filter((words) => words !== null);
  return { ...headlineOf(wrong), paragraphs };
}

/** Keys told one by one. */
const KEYS = 3;

/** What is compared, as far as it is built. */
function designsWords(runs: readonly CompareRun[]): string {
  const keys = builtDifferences(runs);
  if (keys.length === 0)
    return 'The designs are the same; at most names, seeds, targets or how much was simulated differ.';
  const told = keys
    .slice(0, KEYS)
    .map(
      (key) =>
        `${named(key.key)} (${runs.map((run, i) => `${labelWords(run)} ${valueWords(key, key.values[i])}`).join(', ')})`,
    );
  const more = keys.length > KEYS ? `; all are under “What differs”` : '';
  return `The designs differ in ${keys.length === 1 ? 'one key' : `${count(keys.length)} keys`}${keys.length > KEYS ? ', among them' : ':'} ${joined(told)}${more}.`;
}

function headlineOf(best: Best | null): Pick<CompareVerdict, 'headline' | 'told'> {
  if (best === null) return { headline: 'There is nothing to compare: nobody crossed.', told: false };
  const { run, worse, unsure, alike } = best;
  const level = [run, ...[...unsure, ...alike].map((rival) => rival.run)];
  if (unsure.length === 0 && alike.length === 0)
    return { headline: `${labelWords(run)} is wrong least often.`, told: true };
  const rest = worse.length === 0 ? '' : `; ${labels(worse.map((rival) => rival.run))} ${are(worse)} wrong more often`;
  const how = unsure.length === 0 ? 'are wrong equally often' : 'can’t be told apart by how often they are wrong';
  return { headline: `${labels(level)} ${how}${rest}.`, told: false };
}

const are = (all: readonly unknown[]): string => (all.length === 1 ? 'is' : 'are');

/** What the range of a difference is called: of one pair, or of all pairs at once. */
const rangeOf = (runs: number): string => (runs > 2 ? '' : '95\u00a0% interval ');

function wrongWords(best: Best, runs: number): string {
  const own = formatEstimate(WRONG.estimate(best.run)!);
  const parts = [
    `${labelWords(best.run)} is wrong ${own} times ${PER_100}.`,
    ...best.worse.map(
      ({ run, behind }) =>
        `${labelWords(run)} is wrong more often, by ${sizeWords(behind.atOnce, 'number', rangeOf(runs))} ${PER_100}.`,
    ),
    ...best.alike.map(({ run }) => `${labelWords(run)} is wrong exactly as often in every replicate.`),
    ...best.unsure.map((rival) => unsureWords(WRONG, rival, best.run, rangeOf(runs))),
  ];
  return `${parts.join(' ')}${runs > 2 ? ' Intervals of differences hold for all pairs of runs at once.' : ''}`;
}

/** 'Between “a” and “b” no difference is told from chance: …; roughly 40 replicates of each would tell it.' */
function unsureWords(measure: CompareMeasure, { run, behind }: Rival, best: CompareRun, range: string): string {
  const enough = enoughReplicates(behind);
  const more =
    behind.atOnce.low === null
      ? ` ${behind.atOnce.reason === undefined ? '' : `${capital(behind.atOnce.reason)}.`}`
      : enough === null || enough > 100_000
        ? ' No sensible number of replicates would tell it.'
        : ` If it stays as large, roughly ${count(enough)} replicates of each would tell it; now there are ${count(Math.min(...behind.replicates))}.`;
  const unit = measure.as === 'share' ? '' : ` ${PER_100}`;
  return `${labelWords(run)} and ${labelWords(best)} can’t be told apart: they differ by ${sizeWords(behind.atOnce, measure.as, range)}${unit}, which may be chance.${more}`;
}

function roomWords(best: Best, runs: number): string {
  const own = formatEstimate(ALL_ROOMS.estimate(best.run)!, 'share');
  const first = `Rooms: with ${labelWords(best.run)} the counts of all rooms are right at once for ${own} of the time`;
  const parts = [
    ...best.worse.map(
      ({ run, behind }) => `with ${labelWords(run)} for less, by ${sizeWords(behind.atOnce, 'share', rangeOf(runs))}`,
    ),
    ...best.alike.map(({ run }) => `with ${labelWords(run)} for exactly as long`),
  ];
  const unsure = best.unsure.map((rival) => unsureWords(ALL_ROOMS, rival, best.run, rangeOf(runs)));
  return [
    `${[first, ...parts].join('; ')}.`,
    ...unsure,
    ...(runs > 2 ? ['These intervals, too, hold for all pairs at once.'] : []),
  ].join(' ');
}

/** The room that each run leaves in the dark longest. */
export function darkestRoom({ metrics, design }: CompareRun): RoomMetrics | undefined {
  const own = metrics.rooms.filter(
    ({ logic, ledger }) => logic === headlineLogic(design) && ledger === headlineLedger(design),
  );
  const dark = (room: RoomMetrics): number => room.empty_while_occupied_share.value ?? -1;
  return [...own].sort((a, b) => dark(b) - dark(a))[0];
}

function darkWords(runs: readonly CompareRun[]): string | null {
  const darkest = runs.map((run) => ({ run, room: darkestRoom(run) }));
  const each = darkest.map(({ run, room }) =>
    room === undefined
      ? `${labelWords(run)}: not known`
      : `${labelWords(run)}: ${named(room.room)}, ${formatEstimate(room.empty_while_occupied_share, 'share')}`,
  );
  const [first, ...others] = new Set(darkest.map(({ room }) => room?.room));
  const text = `The room that the count calls empty longest while somebody is there: ${each.join('; ')}.`;
  if (first === undefined || others.length > 0 || runs.length !== 2) return text;
  const [a, b] = runs as readonly [CompareRun, CompareRun];
  const { own } = difference(roomMeasures(first)[1]!, b, a, 1);
  if (own.low === null || (own.value === 0 && own.high === 0)) return text;
  const told = own.low > 0 || own.high! < 0;
  return `${text} They differ by ${sizeWords(own, 'share')}${told ? '' : ', which may be chance'}.`;
}

/** Most things told that another run is better at. */
const MOST_TOLD = 3;

/** What the runs that are not the best are surely better at, each difference for itself. */
function othersWords(best: CompareRun, runs: readonly CompareRun[]): string | null {
  const groups = measureGroups(runs);
  const said = runs
    .filter((run) => run !== best)
    .flatMap((run) => {
      const better = groups
        .flatMap(({ measures }) => measures)
        .filter((measure) => measure !== WRONG)
        .map((measure) => ({ measure, own: difference(measure, run, best, 1).own }))
        .filter(({ measure, own }) => judged(measure, own) === 'better');
      if (better.length === 0) return [];
      const told = better.slice(0, MOST_TOLD).map(({ measure, own }) => {
        const place = measure.place.of === 'house' ? '' : `${placeWords(measure.place)}: `;
        const what = measure.as === 'share' ? measure.words : `${measure.words} per 100`;
        return `${place}${what}, by ${sizeWords(own, measure.as)}`;
      });
      const more = better.length > told.length ? ` and ${better.length - told.length} more below` : '';
      return [`${labelWords(run)} is better than it in ${joined(told)}${more}`];
    });
  return said.length === 0
    ? null
    : `What ${labelWords(best)} is not the best at, each for itself with 95\u00a0%: ${said.join('. ')}.`;
}

/** Who is cheaper, of drilled mounting; null where all take the same. */
function effortWords(runs: readonly CompareRun[]): string | null {
  const all = runs.map((run) => ({ run, effort: effortOf(run.design) }));
  const say = all.map(({ run, effort }) => {
    const { holes, cable_m, parts_cents, work_cents } = effort.total.drilled;
    const cost = money(parts_cents + (work_cents ?? 0), effort.currency);
    const cable = cable_m === null ? '' : `, ${lengthWords(cable_m)} of cable`;
    return { run, words: `${count(holesIn(holes))} holes${cable}, ${cost}${madeUpMark(effort)}` };
  });
  if (new Set(say.map(({ words }) => words)).size === 1)
    return `Installing takes the same with each: ${say[0]?.words}.`;
  return `Installing takes, drilled: ${say.map(({ run, words }) => `${labelWords(run)} ${words}`).join('; ')}.`;
}
