/** How often rangers are really read: worked out from the turns of their controller, never typed in. */
import type { Design } from '../scenario/schema.js';
import { intervalOf, type RoundInterval } from '../sensors/controllers/intervals.js';
import type { Member, Round } from '../sensors/controllers/rounds.js';
import type { Controller } from '../sensors/controllers/schema.js';
import { isRanger } from '../sensors/mounted.js';
import type { Ranger } from '../sensors/ranger.js';
import { NOBODY } from '../sensors/scan/slot.js';
import { mountedBeams } from '../simulate/plan.js';
import { houseRounds, longestBusy_us, rangerAt } from '../simulate/ranger-rounds.js';

export interface RangerTimes {
  readonly door: string;
  readonly beam: string;
  /** The longest time between two of its readings with nobody in any door, microseconds. */
  readonly idle_us: number;
  /** The same when every ranger keeps the controller waiting as long as it ever does. */
  readonly slowest_us: number;
}
export interface ReadingTimes {
  /** Each turn's rangers as DOOR.BEAM. */
  readonly turns: readonly (readonly string[])[];
  readonly rangers: readonly RangerTimes[];
  /** Longest turn that doesn't fit into the cycle, microseconds; null if all fit. */
  readonly stretched_us: number | null;
}

/** A controller of many doors is worked out once, not for each of them. */
const known = new WeakMap<Design, Map<string, ReadingTimes>>();

export function readingTimes(design: Design, controller: Controller): ReadingTimes {
  let times = known.get(design);
  if (!times) known.set(design, (times = new Map()));
  const found = times.get(controller.name) ?? timesOf(design, controller);
  times.set(controller.name, found);
  return found;
}

function timesOf(design: Design, controller: Controller): ReadingTimes {
  const mounted = design.doors.map((door) => mountedBeams(design, door));
  const round = houseRounds(design, mounted).find((one) => one.controller.name === controller.name);
  if (!round) return { turns: [], rangers: [], stretched_us: null };
  const rangers = new Map(membersOf(round).map((member) => [keyOf(member), rangerOf(design, member)]));
  const busy =
    (of: (ranger: Ranger) => number) =>
    (member: Member): number => {
      const ranger = rangers.get(keyOf(member));
      return ranger ? of(ranger) : 0;
    };
  const idle = intervalOf(
    round,
    busy((r) => r.busy_us(r.sees(NOBODY))),
  );
  const slowest = intervalOf(round, busy(longestBusy_us));
  const nameOf = ({ door, beam }: Member): { door: string; beam: string } => ({
    door: design.doors[door]?.name ?? '',
    beam: design.doors[door]?.beams[beam]?.name ?? '',
  });
  return {
    turns: round.turns.map((turn) =>
      turn.map((member) => {
        const { door, beam } = nameOf(member);
        return `${door}.${beam}`;
      }),
    ),
    rangers: idle.members.map((member, i) => ({
      ...nameOf(member),
      idle_us: member.longest_us,
      slowest_us: slowest.members[i]?.longest_us ?? member.longest_us,
    })),
    stretched_us: longestStretched(slowest),
  };
}

function longestStretched({ turns }: RoundInterval): number | null {
  const stretched = turns.filter((turn) => turn.stretched).map((turn) => turn.length_us);
  return stretched.length > 0 ? Math.max(...stretched) : null;
}

const membersOf = (round: Round): Member[] => round.turns.flat();
const keyOf = ({ door, beam }: Member): string => `${door}.${beam}`;

function rangerOf(design: Design, { door, beam }: Member): Ranger {
  const at = design.doors[door];
  const mounted = at && mountedBeams(design, at)[beam];
  if (!mounted || !isRanger(mounted)) throw new RangeError('a turn of what is no ranger');
  return rangerAt(design, at, mounted, 0);
}
