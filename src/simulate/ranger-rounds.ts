/** The rangers of a whole house in their places, and the rounds in which its controllers read them: for runs, facts and reports alike. */
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { Round } from '../sensors/controllers/rounds.js';
import { roundsOf } from '../sensors/controllers/rounds.js';
import { makeRanger } from '../sensors/make-ranger.js';
import type { MountedBeam, MountedRanger } from '../sensors/mounted.js';
import { isRanger } from '../sensors/mounted.js';
import type { Ranger } from '../sensors/ranger.js';

/** @param mounted the beams of each door @returns one round a controller, those without a ranger too */
export function houseRounds(design: Design, mounted: readonly (readonly MountedBeam[])[]): Round[] {
  const doors = design.doors.map(({ name, controller }, d) => ({
    name,
    controller,
    beams: (mounted[d] as readonly MountedBeam[]).map((beam) => ({ name: beam.name, ranger: isRanger(beam) })),
  }));
  return roundsOf(design.controllers, doors);
}

/** @param phase where a free-running sensor is in its measurement when the clock starts, 0 to 1 */
export function rangerAt(design: Design, door: DesignDoor, mounted: MountedRanger, phase: number): Ranger {
  const { width_m, height_m, zone_m } = door;
  return makeRanger({ mounted, opening: { width_m, height_m, zone_m }, surroundings: design.surroundings, phase });
}

/** The longest that a ranger keeps its controller waiting: the far end of its range takes longest, or no echo at all. */
export function longestBusy_us(ranger: Ranger): number {
  return Math.max(ranger.busy_us(Infinity), ranger.busy_us(ranger.strays_m[1]));
}
