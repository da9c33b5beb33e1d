/** Facts of a door in plain sentences: the words of `jambeam check`. */
import { capital, count, joined, metres, plain } from '../report/words.js';
import { alikeBarriers } from '../simulate/fact-cautions.js';
import type { BeamFacts, DoorFacts, Met, Reach, ResponseFacts, SpacingFacts } from '../simulate/fact-types.js';
import { alikeRangers, type Ranged, rangedBeams } from '../simulate/ranger-cautions.js';
import { shareWords, walkersWords } from './lines.js';
import { idleSentences, pairSentences, scanSentences, seenSentences } from './ranger-words.js';
import { centimetres, milliseconds, speed } from './unit-words.js';

export interface FactGroup {
  readonly title: string;
  readonly sentences: readonly string[];
}

/** What is told of one door, in the order of building it: beams, spacing, opening. */
export function factGroups(facts: DoorFacts): FactGroup[] {
  return [
    ...alikeBarriers(facts.beams).map(barrierGroup),
    ...alikeRangers(rangedBeams(facts)).map(({ beams }) => rangerGroup(beams)),
    ...scanGroup(facts),
    ...facts.spacings.map(spacingGroup),
    { title: 'Opening', sentences: openingSentences(facts) },
  ];
}

/** 'beam A', 'beams A and B'. */
function beamNames(names: readonly string[]): string {
  return `${names.length > 1 ? 'beams' : 'beam'} ${joined(names.map(plain))}`;
}

function barrierGroup(beams: readonly (BeamFacts & { readonly response: ResponseFacts })[]): FactGroup {
  const beam = beams[0] as (typeof beams)[number];
  return {
    title: `${capital(beamNames(beams.map((one) => one.beam)))}, ${metres(beam.height_m)} above the floor`,
    sentences: [
      reachSentence(beam.reach),
      ...beam.met.map((met) => metSentence(met)),
      `Going through alone, ${shareWords(beam.broken)} of this door's walkers break ${plain(beam.beam)}; ` +
        `${beam.breaks_per_crossing.toFixed(2)} breaks a crossing (${count(beam.broken.n)} crossings).`,
      ...responseSentences(beam.response),
    ],
  };
}

function rangerGroup(beams: readonly Ranged[]): FactGroup {
  const beam = beams[0] as Ranged;
  const names = joined(beams.map((one) => plain(one.beam)));
  const half = beam.level ? '' : ' half-way along its axis';
  const where = beam.mount === 'lintel' ? 'looking down' : `${centimetres(beam.height_m)} above the floor${half}`;
  return {
    title: `${beams.length > 1 ? 'Rangers' : 'Ranger'} ${names}, ${where}`,
    sentences: [
      ...(beam.reach.length > 0 ? [reachSentence(beam.reach)] : []),
      ...beam.met.map((met) => metSentence(met, 'Its axis')),
      ...idleSentences(beam.ranger),
      ...(beam.ranger.always_broken ? [] : seenSentences(beams)),
    ],
  };
}

function scanGroup(facts: DoorFacts): FactGroup[] {
  if (facts.rangers === null) return [];
  const intervals = rangedBeams(facts).map(({ beam, ranger }) => [beam, ranger.interval] as const);
  return [{ title: 'Reading the rangers', sentences: scanSentences(facts.rangers, intervals) }];
}

function reachSentence(reach: readonly Reach[]): string {
  const groups = reach.filter(({ ages_y }) => ages_y !== null);
  const own = reach.filter(({ who, ages_y }) => ages_y === null && !['adult', 'adult-with-infant'].includes(who));
  const each = [
    ...groups.map(({ who, ages_y, above }) =>
      who === 'adults' ? `adults ${shareWords(above)}` : `${who} of ${ages_y?.join('–')} ${shareWords(above)}`,
    ),
    ...own.map(
      ({ who, above }) => `${who === 'child' ? "this door's children" : `"${plain(who)}"`} ${shareWords(above)}`,
    ),
  ];
  return `Standing taller than this: ${each.join(', ')} (${count(reach[0]?.above.n ?? 0)} drawn of each).`;
}

function metSentence({ who, stature_m, parts }: Met, what = 'It'): string {
  const body = `a middling ${who} (${metres(Math.round(stature_m * 100) / 100)})`;
  // What is met for less than a twentieth of the time is a graze.
  const met = parts.filter(({ share }) => share >= 0.05).map(({ part }) => part);
  return met.length === 0
    ? `${what} meets nothing of ${body}.`
    : `Of ${body} ${uncapital(what)} meets the ${joined(met)}.`;
}

function uncapital(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function responseSentences(response: ResponseFacts): string[] {
  const { response_ms, shortest_break_ms, unseen, shortest_gap_ms, bridged } = response;
  if (shortest_break_ms === null) return [];
  const breaks =
    `The shortest breaks last ${milliseconds(shortest_break_ms)}; the response time is ${milliseconds(response_ms)}` +
    (unseen.value > 0 ? `, too slow for a break in ${shareWords(unseen)} of crossings.` : ', quick enough for all.');
  if (shortest_gap_ms === null) return [breaks];
  const some = bridged.n === unseen.n ? '' : `In ${count(bridged.n)} of ${count(unseen.n)} crossings it breaks again: `;
  const gaps = `the shortest gaps between two breaks last ${milliseconds(shortest_gap_ms)}`;
  const end = bridged.value > 0 ? `; ${shareWords(bridged)} of them have a gap too short to be seen.` : '.';
  return [breaks, `${some === '' ? capital(gaps) : some + gaps}${end}`];
}

function spacingGroup(spacing: SpacingFacts): FactGroup {
  const { first, second, spacing_m, fastest_mps, slowest_mps, fastest_ms, slowest_ms, depth_m } = spacing;
  const [a, b] = [plain(first), plain(second)];
  const drawn = `(${count(spacing.speeds_n)} drawn)`;
  const sentences = [
    fastest_mps === slowest_mps
      ? `Every walker (${speed(fastest_mps)}) takes ${milliseconds(fastest_ms)} from ${a} to ${b} ${drawn}.`
      : `The fastest walker of the mix (${speed(fastest_mps)}) takes ${milliseconds(fastest_ms)} from ${a} to ${b}, ` +
        `the slowest (${speed(slowest_mps)}) ${milliseconds(slowest_ms)}; 2.5 in 100 are faster still, 2.5 slower ` +
        `${drawn}.`,
  ];
  if (depth_m !== null) {
    const n = count(spacing.shallower.n);
    sentences.push(
      `The longest break of ${a} in a crossing lasts over ${metres(round2(depth_m.middle))} of the way ` +
        `(${metres(round2(depth_m.low))} to ${metres(round2(depth_m.high))}): ${shallowerWords(spacing)}, ` +
        `${togetherWords(spacing)} (${n} crossings).`,
    );
  }
  if (spacing.scan === null || spacing.poll !== null) sentences.push(pollSentence(spacing));
  sentences.push(...pairSentences(spacing));
  return { title: `From ${a} to ${b}, ${metres(spacing_m)}`, sentences };
}

function shallowerWords({ shallower }: SpacingFacts): string {
  if (shallower.value === 0) return 'nobody is shallower than the spacing';
  return `${walkersWords(shallower)} are shallower than the spacing`;
}

function togetherWords({ never_together }: SpacingFacts): string {
  if (never_together.value === 0) return 'all break both beams at one moment';
  return `${shareWords(never_together)} never break both beams at one moment`;
}

function pollSentence({ poll, first, second }: SpacingFacts): string {
  if (poll === null) return 'The inputs are wired to interrupts: no edge falls between two reads.';
  const state = `"${plain(first)} alone" or "${plain(second)} alone"`;
  const who = poll.unsure.value > 0 ? `${walkersWords(poll.unsure)} are faster` : 'nobody drawn is faster';
  return (
    `Read every ${milliseconds(poll.poll_ms)}, the controller is sure to see ${state} only up to ` +
    `${speed(poll.sure_to_mps)} (spacing / interval); ${who}.`
  );
}

function openingSentences({ opening, zone, interference }: DoorFacts): string[] {
  const { width_m, abreast, turned } = opening;
  const pairs = count(abreast.n);
  const two =
    abreast.value === 0
      ? `none of ${pairs} drawn pairs of adults fits side by side: two come one after the other.`
      : `${shareWords(abreast)} of ${pairs} drawn pairs of adults fit side by side.`;
  const sentences = [`${metres(width_m)} wide: ${two}`];
  if (turned.value > 0) sentences.push(`${capital(shareWords(turned))} of adults turn their shoulders to go through.`);
  const needs =
    zone.least_m === null
      ? `${zone.cut.value === 0 ? 'nobody going through alone breaks' : `${shareWords(zone.cut)} of those going through alone break`} a beam at its ends`
      : `the beams and the longest limb need ${metres(zone.least_m)}`;
  sentences.push(`The doorway zone reaches ${metres(zone.zone_m)} to either side; ${needs}.`);
  for (const { emitter, receiver } of interference)
    sentences.push(`The emitter of ${plain(emitter)} also shines into the receiver of ${plain(receiver)}.`);
  return sentences;
}

function round2(x: number): number {
  return Math.round(x * 100) / 100;
}
