/** All rangers of a house as facts are worked out of them: in their place, in middling phase, with nobody there. */
import { Stream } from '../engine/stream.js';
import type { Design } from '../scenario/schema.js';
import type { Round } from '../sensors/controllers/rounds.js';
import type { MountedRanger } from '../sensors/mounted.js';
import { isRanger } from '../sensors/mounted.js';
import type { Ranger } from '../sensors/ranger.js';
import { NO_ECHO } from '../sensors/ranger.js';
import type { Reaches } from '../sensors/scan/air.js';
import { Slot } from '../sensors/scan/slot.js';
import { burstSources } from './bursts.js';
import { mountedBeams } from './plan.js';
import { houseRounds, rangerAt } from './ranger-rounds.js';

/** One ranger in its place. */
export interface Placed {
  readonly door: number;
  readonly beam: number;
  /** As turns call it: DOOR.BEAM. */
  readonly name: string;
  readonly mounted: MountedRanger;
  readonly ranger: Ranger;
  readonly slot: Slot;
  /** What it sees of the idle door, metres, and reads: whole micrometres or NO_ECHO. */
  readonly idle_m: number;
  readonly idle_um: number;
  /** Switching point with the idle door as background: whole micrometres. */
  readonly point_um: number;
}

export interface PlacedHouse {
  readonly rangers: readonly Placed[];
  /** Rounds with a ranger at least. */
  readonly rounds: readonly Round[];
  readonly reaches: Reaches;
}

/** Free-running sensors are taken half-way through a measurement when the clock starts. */
const MIDDLING_PHASE = 0.5;

export function placeRangers(design: Design): PlacedHouse {
  const mounted = design.doors.map((door) => mountedBeams(design, door));
  const rangers = mounted.flatMap((beams, door) => beams.filter(isRanger).map((beam) => placed(design, door, beam)));
  const rounds = houseRounds(design, mounted).filter(({ turns }) => turns.length > 0);
  return { rangers, rounds, reaches: burstSources(design, mounted) };
}

function placed(design: Design, index: number, mounted: MountedRanger): Placed {
  const door = design.doors[index] as Design['doors'][number];
  const ranger = rangerAt(design, door, mounted, MIDDLING_PHASE);
  const slot = new Slot(index, mounted.index, ranger, mounted.sensor, Stream.root('facts'), 0);
  const idle_um = ranger.reading(slot.idle_m, 0.5);
  const { nearer_than_m, margin_m } = mounted.sensor.switching;
  const point_m = nearer_than_m ?? backgroundOf(mounted, idle_um) / 1e6 - margin_m;
  return {
    door: index,
    beam: mounted.index,
    name: `${door.name}.${mounted.name}`,
    mounted,
    ranger,
    slot,
    idle_m: slot.idle_m,
    idle_um,
    point_um: Math.round(point_m * 1e6),
  };
}

/** Without echo the background is the end of the range. */
function backgroundOf({ sensor }: MountedRanger, idle_um: number): number {
  return idle_um === NO_ECHO ? Math.round(sensor.range_m * 1e6) : idle_um;
}

/** Whether a reading breaks the beam: nearer than the switching point, or without echo where that means broken. */
export function breaksBeam({ mounted, point_um }: Placed, reading_um: number): boolean {
  return reading_um === NO_ECHO ? mounted.sensor.switching.no_echo === 'broken' : reading_um < point_um;
}

/** The nearest distance it can tell: blind zone or fold. */
export function nearestOf({ sensor }: MountedRanger): number {
  return sensor.kind === 'triangulation-ranger' ? sensor.fold_m : sensor.blind_m;
}
