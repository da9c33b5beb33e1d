/** What the source for one door's controller is made from, drawn out of a design. */
import type { Table } from '../../counter/table/table.js';
import type { Design, DesignDoor } from '../../scenario/schema.js';
import type { MountedRanger } from '../../sensors/mounted.js';
import { isRanger } from '../../sensors/mounted.js';
import { controllerOf, mountedBeams } from '../plan.js';
import { placeRangers } from '../ranger-facts-house.js';
import { type OwnTurn, ownTurns } from './turns.js';

export interface FirmwarePlan {
  /** Of the door in its scenario, from 1: tells doors apart in C. */
  readonly number: number;
  readonly table: Table;
  readonly beams: number;
  /** The door's rangers, in order of beams. */
  readonly rangers: readonly MountedRanger[];
  /** Its light barriers, as bits: bit i is beam i. */
  readonly barriers: number;
  readonly turns: readonly OwnTurn[];
  /** The longest that one of its rangers takes for a reading: whole microseconds, 0 without rangers. */
  readonly time_out_us: number;
  /** How often light barriers are read, whole microseconds; null when they are wired to interrupts. */
  readonly poll_us: number | null;
}

/** @param table of the logic to build, with as many beams as the door */
export function firmwarePlan(design: Design, door: DesignDoor, table: Table): FirmwarePlan {
  const index = design.doors.indexOf(door);
  const rangers = mountedBeams(design, door).filter(isRanger);
  const beams = door.beams.length;
  const house = rangers.length > 0 ? placeRangers(design) : null;
  const own = house?.rangers.filter((placed) => placed.door === index) ?? [];
  const { poll_ms } = controllerOf(design, door);
  return {
    number: index + 1,
    table,
    beams,
    rangers,
    barriers: rangers.reduce((mask, ranger) => mask & ~(1 << ranger.index), (1 << beams) - 1),
    turns: house ? ownTurns(house, index) : [],
    time_out_us: Math.max(0, ...own.map(({ ranger }) => ranger.busy_us(Infinity))),
    poll_us: poll_ms === undefined ? null : Math.max(1, Math.round(poll_ms * 1000)),
  };
}
