/** Optical rangers in their places, for tests; limbs and scenes are those of the ultrasonic ranger's tests. */
import type { MountedRanger } from '../../../src/sensors/mounted.js';
import type { Ranger, RangerPlace } from '../../../src/sensors/ranger.js';
import { makeTimeOfFlight } from '../../../src/sensors/time-of-flight/ranger.js';
import { type TimeOfFlightRanger, timeOfFlightSchema } from '../../../src/sensors/time-of-flight/schema.js';
import { makeTriangulation } from '../../../src/sensors/triangulation/ranger.js';
import { type TriangulationRanger, triangulationSchema } from '../../../src/sensors/triangulation/schema.js';
import { type Built, type Capsule, EMPTY, placeOf, sceneOf, upright } from '../ultrasonic/building.js';

export { type Capsule, EMPTY, sceneOf, upright };

export interface Place extends Omit<Built, 'sensor' | 'air'> {
  readonly sunlight_klx?: number;
  readonly phase?: number;
}

/** In the left jamb at 1 m, straight across an opening of 0.8 m × 2 m, in the dark, unless said otherwise. */
function opticalPlace({ sunlight_klx = 0, phase = 0, ...rest }: Place, sensor: MountedRanger['sensor']): RangerPlace {
  const place = placeOf({ ...rest, air: { sunlight_klx } });
  return { ...place, phase, mounted: { ...place.mounted, sensor } };
}

export function triangulation(sensor: Partial<TriangulationRanger> = {}, at: Place = {}): Ranger {
  return makeTriangulation(opticalPlace(at, triangulationSchema.parse({ kind: 'triangulation-ranger', ...sensor })));
}

export function timeOfFlight(sensor: Partial<TimeOfFlightRanger> = {}, at: Place = {}): Ranger {
  return makeTimeOfFlight(opticalPlace(at, timeOfFlightSchema.parse({ kind: 'time-of-flight-ranger', ...sensor })));
}

/** What it sees of some limbs, all in clothes that draw `clothing`. */
export function seenBy(ranger: Ranger, limbs: readonly Capsule[], clothing = 0.5): number {
  return ranger.sees(sceneOf(limbs, clothing));
}
