/** The turns of one door's rangers, as its controller takes them; turns of other doors become pauses. */
import { cycle_us, per_round_us } from '../../sensors/controllers/turn-length.js';
import type { PlacedHouse } from '../ranger-facts-house.js';
import { roundTimes } from '../ranger-facts-scan.js';

export interface OwnTurn {
  /** The door's rangers that are read together, as bits: bit i is beam i. */
  readonly beams: number;
  /** From its start to the next start, unless it takes longer: whole microseconds; 0 where the echo decides. */
  readonly cycle_us: number;
  /** From its end, or the end of its cycle, to the next of the door's turns: whole microseconds. */
  readonly pause_us: number;
}

/**
 * In order of the round, beginning with the first that reads one of the door's rangers. None for a door without
 * rangers. Turns in which only rangers of other doors are read take as long as they do while nobody is there.
 *
 * @param door index among the design's doors
 */
export function ownTurns(house: PlacedHouse, door: number): OwnTurn[] {
  const all = roundTimes(house);
  const times = all.find(({ round }) => round.turns.flat().some((member) => member.door === door));
  if (times === undefined) return [];
  const { round, idle } = times;
  const { controller } = round;
  const cycle = cycle_us(controller);
  const wait_us = cycle === undefined ? Math.round((controller.wait_ms ?? 0) * 1000) : 0;
  const own: { beams: number; cycle_us: number; pause_us: number }[] = [];
  // What comes before the door's first turn comes after its last.
  let before_us = per_round_us(controller);
  for (const [t, members] of round.turns.entries()) {
    const beams = members.reduce((mask, member) => (member.door === door ? mask | (1 << member.beam) : mask), 0);
    const last = own.at(-1);
    if (beams !== 0) own.push({ beams, cycle_us: cycle ?? 0, pause_us: wait_us });
    else if (last) last.pause_us += idle.turns[t]!.length_us;
    else before_us += idle.turns[t]!.length_us;
  }
  own.at(-1)!.pause_us += before_us;
  return own;
}
