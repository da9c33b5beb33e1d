/** How often each ranger is really read: computed from the turns of its round, never typed in. */
import type { Member, Round } from './rounds.js';
import { cycle_us, per_round_us, turnLength_us, turnNeeds_us } from './turn-length.js';

export interface RoundInterval {
  /** From the start of a round to the start of the next: whole microseconds. */
  readonly round_us: number;
  readonly turns: readonly {
    /** From the start of the turn to the next, or to the end of the turns: microseconds. */
    readonly length_us: number;
    /** Its cycle is too short for what it needs. */
    readonly stretched: boolean;
    /** Reading, loop and serial line: microseconds. */
    readonly needs_us: number;
  }[];
  /** Each ranger once, as first read: the longest time from one of its readings to the next, microseconds. */
  readonly members: readonly (Member & { readonly longest_us: number })[];
}

/**
 * The intervals of a round in which every ranger takes as long as `busyOf` says: whole microseconds. Rangers of one turn
 * are waited for together, so the slowest decides.
 */
export function intervalOf(round: Round, busyOf: (member: Member) => number): RoundInterval {
  const { controller } = round;
  const cycle = cycle_us(controller);
  const turns = round.turns.map((turn) => {
    const busy_us = Math.max(...turn.map(busyOf));
    const needs_us = turnNeeds_us(controller, turn.length, busy_us);
    return {
      length_us: turnLength_us(controller, turn.length, busy_us),
      stretched: cycle !== undefined && needs_us > cycle,
      needs_us,
    };
  });
  const round_us = turns.reduce((sum, { length_us }) => sum + length_us, per_round_us(controller));
  const starts_us = turns.map((_, turn) => turns.slice(0, turn).reduce((sum, { length_us }) => sum + length_us, 0));
  return { round_us, turns, members: longest(round, round_us, starts_us) };
}

/** The longest gap between a ranger's readings; one that is read once a round waits for a whole round. */
function longest(round: Round, round_us: number, starts_us: readonly number[]): RoundInterval['members'] {
  const read = new Map<string, { member: Member; at_us: number[] }>();
  for (const [turn, members] of round.turns.entries()) {
    for (const member of members) {
      const key = `${member.door}.${member.beam}`;
      const one = read.get(key) ?? { member, at_us: [] };
      one.at_us.push(starts_us[turn]!);
      read.set(key, one);
    }
  }
  return [...read.values()].map(({ member: { door, beam }, at_us }) => {
    const gaps = at_us.map((at, index) => (at_us[index + 1] ?? at_us[0]! + round_us) - at);
    return { door, beam, longest_us: Math.max(...gaps) };
  });
}
