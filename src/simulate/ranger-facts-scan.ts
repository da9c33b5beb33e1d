/** How often rangers are really read, and by what a cycle is stretched: from turns, readings, loop and serial line. */
import type { RoundInterval } from '../sensors/controllers/intervals.js';
import { intervalOf } from '../sensors/controllers/intervals.js';
import type { Member, Round } from '../sensors/controllers/rounds.js';
import { cycle_us, per_round_us, turnNeeds_us } from '../sensors/controllers/turn-length.js';
import type { Interval, ScanFacts, StretchedFacts } from './ranger-fact-types.js';
import type { Placed, PlacedHouse } from './ranger-facts-house.js';
import { longestBusy_us } from './ranger-rounds.js';

export interface RoundTimes {
  readonly round: Round;
  /** With the idle door's echo; and when every ranger takes as long as it can. */
  readonly idle: RoundInterval;
  readonly busiest: RoundInterval;
}

/** The times of every round of the house. */
export function roundTimes({ rangers, rounds }: PlacedHouse): RoundTimes[] {
  const find = ({ door, beam }: Member): Placed =>
    rangers.find((one) => one.door === door && one.beam === beam) as Placed;
  return rounds.map((round) => ({
    round,
    idle: intervalOf(round, (member) => idleBusy_us(find(member))),
    busiest: intervalOf(round, (member) => longestBusy_us(find(member).ranger)),
  }));
}

/** The round a ranger is read in. */
export function timesOf(all: readonly RoundTimes[], { door, beam }: Placed): RoundTimes {
  return all.find(({ idle }) => idle.members.some((one) => one.door === door && one.beam === beam)) as RoundTimes;
}

/** The longest time from one reading of a ranger to its next. */
export function intervalFacts(all: readonly RoundTimes[], placed: Placed): Interval {
  const { idle, busiest } = timesOf(all, placed);
  const longest = ({ members }: RoundInterval): number =>
    members.find(({ door, beam }) => door === placed.door && beam === placed.beam)?.longest_us ?? 0;
  return { idle_ms: longest(idle) / 1000, busiest_ms: longest(busiest) / 1000 };
}

export function scanFacts({ rangers }: PlacedHouse, times: RoundTimes): ScanFacts {
  const { round, idle, busiest } = times;
  const { controller } = round;
  const cycle = cycle_us(controller);
  return {
    controller: controller.name,
    rangers: idle.members.length,
    turns: round.turns.length,
    round: { idle_ms: idle.round_us / 1000, busiest_ms: busiest.round_us / 1000 },
    per_round_ms: per_round_us(controller) / 1000,
    cycle_ms: cycle === undefined ? null : cycle / 1000,
    stretched: stretchedFacts(rangers, times),
  };
}

/** Of the turns that their cycle is too short for, the one that needs most; one that needs it always goes first. */
function stretchedFacts(rangers: readonly Placed[], { round, idle, busiest }: RoundTimes): StretchedFacts | null {
  const always = idle.turns.some(({ stretched }) => stretched);
  const { turns } = always ? idle : busiest;
  let worst = -1;
  turns.forEach(({ stretched, needs_us }, turn) => {
    if (stretched && needs_us > (turns[worst]?.needs_us ?? 0)) worst = turn;
  });
  const members = round.turns[worst];
  const needs_us = turns[worst]?.needs_us;
  if (members === undefined || needs_us === undefined) return null;
  const { controller } = round;
  const afterwards_us = turnNeeds_us(controller, members.length, 0);
  const loop_us = turnNeeds_us({ ...controller, serial_characters: 0 }, members.length, 0);
  return {
    turn: members.flatMap((member) => rangers.find((one) => isMember(one, member))?.name ?? []),
    always,
    needs_ms: needs_us / 1000,
    reading_ms: (needs_us - afterwards_us) / 1000,
    loop_ms: loop_us / 1000,
    serial_ms: (afterwards_us - loop_us) / 1000,
  };
}

function isMember(one: Member, other: Member): boolean {
  return one.door === other.door && one.beam === other.beam;
}

function idleBusy_us({ ranger, idle_m }: Placed): number {
  return ranger.busy_us(idle_m);
}
