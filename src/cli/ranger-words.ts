/** Facts about rangers in plain sentences. */
import { capital, count, joined, metres, plain, plural } from '../report/words.js';
import type { BeamFacts, SpacingFacts } from '../simulate/fact-types.js';
import { heardByKind } from '../simulate/ranger-cautions.js';
import { FACT_ROD } from '../simulate/ranger-facts-rod.js';
import type {
  DoorRangerFacts,
  HeardFacts,
  Interval,
  RangerFacts,
  StretchedFacts,
} from '../simulate/ranger-fact-types.js';
import { shareWords, walkersWords } from './lines.js';
import { centimetres, degrees, millimetres, preciseMs, speed } from './unit-words.js';

/** '60 ms'; where waiting for no echo takes longer, '60 ms to 76.2 ms'. */
export function intervalWords({ idle_ms, busiest_ms }: Interval): string {
  const same = preciseMs(idle_ms) === preciseMs(busiest_ms);
  return same ? preciseMs(idle_ms) : `${preciseMs(idle_ms)}, up to ${preciseMs(busiest_ms)} without echoes`;
}

/** What holds for all rangers of which the idle door is the same. */
export function idleSentences(ranger: RangerFacts): string[] {
  const { sight_m, learnt, point_m, noise_m, idle, always_broken } = ranger;
  const how = learnt ? 'the background learnt, less its margin' : 'as set';
  const sentences = [
    `${backgroundWords(ranger)} It is broken while it reads nearer than ${centimetres(point_m)} (${how})${always_broken ? ': always' : ''}.`,
  ];
  if (idle && noise_m !== null && !always_broken)
    sentences.push(
      `Three standard deviations of that reading are ${millimetres(noise_m)}, the margin is ${millimetres(idle.reads_m - point_m)}.`,
    );
  if (sight_m && !always_broken) {
    const thick = millimetres(2 * FACT_ROD.radius_m);
    sentences.push(
      `An upright rod ${thick} thick breaks it from ${metres(sight_m[0])} to ${metres(sight_m[1])} along its axis.`,
    );
  }
  return [...sentences, ...airSentences(ranger)];
}

function backgroundWords({ background, axis_m, nearest_m, range_m, idle }: RangerFacts): string {
  const end = `the frame is ${centimetres(axis_m)} away along its axis`;
  if (background === 'beyond') return `${capital(end)}, beyond its range of ${metres(range_m)}.`;
  if (background === 'too-near') return `${capital(end)}, nearer than the ${metres(nearest_m)} it can tell.`;
  if (background === 'faint' || idle === null) return `${capital(end)}, but its echo is too faint.`;
  return `It reads ${metres(Math.round(idle.reads_m * 1000) / 1000)} of the idle door (${end}).`;
}

/** Always told when the temperatures differ. */
function airSentences({ air, idle, learnt }: RangerFacts): string[] {
  if (air === null || air.real_c === air.assumed_c) return [];
  const off_m = air.off_per_m * (idle?.true_m ?? 0);
  const jamb = idle ? `, the idle door's ${centimetres(idle.true_m)} ${millimetres(off_m)}` : '';
  return [
    `The air has ${degrees(air.real_c)}, the controller takes it for ${degrees(air.assumed_c)}: 1\u00a0m reads ` +
      `${millimetres(air.off_per_m)} too ${air.off_per_m < 0 ? 'short' : 'long'}${jamb}${learnt ? '; the background is learnt with it' : ''}.`,
  ];
}

/** What rangers make of lone walkers: one sentence for those of which it is the same. */
export function seenSentences(beams: readonly (BeamFacts & { readonly ranger: RangerFacts })[]): string[] {
  const names = new Map<string, string[]>();
  for (const beam of beams) {
    const words = seenWords(beam);
    names.set(words, [...(names.get(words) ?? []), plain(beam.beam)]);
  }
  return [...names].map(([words, who]) => `${joined(who)}: ${words}`);
}

function seenWords({ ranger, breaks_per_crossing }: BeamFacts & { readonly ranger: RangerFacts }): string {
  const { ever, read, broken, lost } = ranger.crossings;
  const lostWords =
    lost.value === 0
      ? 'strays and drop-outs left out, every reading with somebody in the axis comes back'
      : `${shareWords(lost)} of readings with somebody in the axis come back without echo, strays and drop-outs left out`;
  return (
    `going through alone, ${shareWords(ever)} of this door's walkers come near enough; read every ` +
    `${preciseMs(ranger.interval.idle_ms)}, ${shareWords(read)} are caught by a reading, ${shareWords(broken)} switch it; ` +
    `${breaks_per_crossing.toFixed(2)} breaks a crossing; ${lostWords} (${count(ever.n)} crossings).`
  );
}

/** How the door's controller goes about it, and who hears whom. */
export function scanSentences(
  { scan, heard }: DoorRangerFacts,
  intervals: readonly (readonly [string, Interval])[],
): string[] {
  const { controller, rangers, turns, round, per_round_ms, cycle_ms, stretched } = scan;
  const after = per_round_ms > 0 ? `, ${preciseMs(per_round_ms)} of it once a round` : '';
  const sentences = [
    `Controller ${plain(controller)} reads ${plural(rangers, 'ranger')} in ${plural(turns, 'turn')}; a round takes ${intervalWords(round)}${after}.`,
    eachRead(intervals),
  ];
  if (stretched && cycle_ms !== null) {
    const when = stretched.always ? 'always' : 'when echoes fail to come';
    sentences.push(
      `cycle_ms of ${preciseMs(cycle_ms)} is stretched ${when}: ${joined(stretched.turn.map(plain))} needs ${needsWords(stretched)}.`,
    );
  }
  return [...sentences, ...heardSentences(heard)];
}

function eachRead(intervals: readonly (readonly [string, Interval])[]): string {
  const words = intervals.map(([, interval]) => intervalWords(interval));
  if (words.every((one) => one === words[0])) return `Each is read every ${words[0]}.`;
  const each = intervals.map(([beam], i) => `${plain(beam)} every ${words[i]}`);
  return `This door's are read: ${each.join('; ')}.`;
}

/** '38.1 ms: 38 ms for reading, 0.1 ms for the loop'. */
export function needsWords({ needs_ms, reading_ms, loop_ms, serial_ms }: StretchedFacts): string {
  const parts = [
    [reading_ms, 'for reading'],
    [loop_ms, 'for the loop'],
    [serial_ms, 'for the serial line'],
  ] as const;
  const each = parts.filter(([ms]) => ms > 0).map(([ms, what]) => `${preciseMs(ms)} ${what}`);
  return `${preciseMs(needs_ms)}: ${joined(each)}`;
}

function heardSentences(heard: readonly HeardFacts[]): string[] {
  return heardByKind(heard).map(({ worst, others }) => {
    const end = worst.nearer ? 'nearer than its own echo' : 'after its own echo, unless that fails to come';
    return `In the idle door ${heardWords(worst)}: taken for ${takenWords(worst)}, ${end}` + `${othersWords(others)}.`;
  });
}

/** 'front.A hears front.B over 0.906 m in the same turn'. */
export function heardWords({ listener, source, when, earlier_ms, way_m }: HeardFacts): string {
  const own = listener === source ? 'its own burst' : plain(source);
  const whence =
    when === 'same turn'
      ? ' in the same turn'
      : when === 'earlier turn'
        ? `, sent ${preciseMs(earlier_ms ?? 0)} before its turn`
        : ' at any moment, as their controllers keep no step';
  return `${plain(listener)} hears ${own} over ${metres(Math.round(way_m * 1000) / 1000)}${whence}`;
}

/** '0.453 m'; of bursts that come at any moment the nearest, 'as near as 0.02 m'. */
export function takenWords({ when, reads_m }: HeardFacts): string {
  return `${when === 'other controller' ? 'as near as ' : ''}${metres(Math.round(reads_m * 1000) / 1000)}`;
}

/** '; 3 other pairs do likewise'. */
export function othersWords(others: number): string {
  if (others === 0) return '';
  return `; ${plural(others, 'other pair')} ${others === 1 ? 'does' : 'do'} likewise`;
}

/** What is told of two beams that follow each other when a ranger is one of them. */
export function pairSentences({ first, second, scan, rangers }: SpacingFacts): string[] {
  if (scan === null) return [];
  const [a, b] = [plain(first), plain(second)];
  const who = scan.unsure.value > 0 ? `${walkersWords(scan.unsure)} are faster` : 'nobody drawn is faster';
  const sentences = [
    `Read every ${intervalWords(scan.interval)}, the order is sure only up to ${speed(scan.sure_to_mps)} ` +
      `(spacing / interval); ${who}.`,
  ];
  if (rangers === null) return sentences;
  const { overlap, sight_m, same_scan, wrong_order } = rangers;
  const thick = millimetres(2 * FACT_ROD.radius_m);
  const sights = sight_m.map((sight, i) => `${[a, b][i]} ${sight ? sightWords(sight) : 'nowhere'}`);
  sentences.push(
    `An upright rod ${thick} thick, half-way across, breaks ${joined(sights)} along the walk; half-way between them it ` +
      `breaks both at once over ${shareWords(overlap)} of the width.`,
    `Of lone walkers that both see, ${shareWords(same_scan)} begin to break both within one interval, and ` +
      `${shareWords(wrong_order)} break the further one first (${count(same_scan.n)} crossings).`,
  );
  return sentences;
}

function sightWords([from, to]: readonly [number, number]): string {
  return `from ${centimetres(from)} to ${centimetres(to)}`;
}
