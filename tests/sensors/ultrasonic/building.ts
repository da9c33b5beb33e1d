/** Rangers and scenes for tests. */
import { rangerLine } from '../../../src/geometry/mounting.js';
import { CAPSULE, type RangerPlace, type Scene } from '../../../src/sensors/ranger.js';
import { type Surroundings, surroundingsSchema } from '../../../src/sensors/surroundings.js';
import { type UltrasonicRanger, ultrasonicSchema } from '../../../src/sensors/ultrasonic/schema.js';

export type Mounted = Partial<Parameters<typeof rangerLine>[0]>;
export interface Built {
  readonly sensor?: Partial<UltrasonicRanger>;
  readonly mounting?: Mounted;
  readonly air?: Partial<Surroundings>;
  readonly width_m?: number;
  readonly height_m?: number;
}

/** A ranger in the left jamb at 1 m, looking straight across an opening of 0.8 m × 2 m, unless said otherwise. */
export function placeOf({ sensor, mounting, air, width_m = 0.8, height_m = 2 }: Built = {}): RangerPlace {
  const opening = { width_m, height_m };
  const mounted = { mount: 'left-jamb', at_m: 0, height_m: 1, ...mounting } as const;
  return {
    mounted: {
      name: 'test',
      index: 0,
      mount: mounted.mount,
      line: rangerLine(mounted, opening),
      sensor: ultrasonicSchema.parse({ kind: 'ultrasonic-ranger', ...sensor }),
    },
    // Bodies may stand anywhere that tests put them.
    opening: { ...opening, zone_m: 10 },
    surroundings: surroundingsSchema.parse(air ?? {}),
    phase: 0,
  };
}

export type Capsule = readonly [number, number, number, number, number, number, number];

/** A scene of capsules (both ends, radius), all in clothes that draw `clothing`. */
export function sceneOf(capsules: readonly Capsule[], clothing = 0.5): Scene {
  return {
    count: capsules.length,
    capsules: Float64Array.from(
      { length: capsules.length * CAPSULE },
      (_, i) => capsules[Math.floor(i / CAPSULE)]![i % CAPSULE]!,
    ),
    clothing: new Float64Array(capsules.length).fill(clothing),
  };
}

/** An upright limb around the height of the ranger. */
export function upright(x: number, y: number, radius: number, length = 0.5, z = 1): Capsule {
  return [x, y, z - length / 2, x, y, z + length / 2, radius];
}

export const EMPTY = sceneOf([]);
