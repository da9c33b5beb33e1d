/** Rangers for tests of the reading alone: what they see is a number of the test's choosing. */
import { controllerSchema } from '../../../src/sensors/controllers/schema.js';
import { roundsOf } from '../../../src/sensors/controllers/rounds.js';
import { normalQuantile } from '../../../src/engine/distribution-functions.js';
import { Stream } from '../../../src/engine/stream.js';
import type { Ranger, Scene } from '../../../src/sensors/ranger.js';
import { NO_ECHO } from '../../../src/sensors/ranger.js';
import { Desk } from '../../../src/sensors/scan/desk.js';
import { Scanner } from '../../../src/sensors/scan/scanner.js';
import { Slot } from '../../../src/sensors/scan/slot.js';
import type { UltrasonicRanger } from '../../../src/sensors/ultrasonic/schema.js';
import { ultrasonicSchema } from '../../../src/sensors/ultrasonic/schema.js';

/** Sees 1 m of jamb, or the first number in a scene; takes as long as light would not: 6 ms a metre, 20 ms without echo. */
export function plainRanger(sd_m: number, early_us = 0): Ranger {
  return {
    near_m: [-1, 1],
    heights_m: [0, 2],
    latest_us: Math.max(0, early_us),
    held_us: Math.max(0, -early_us),
    poseTime: (start_us) => start_us + early_us,
    sees: (scene) => (scene.count === 0 ? 1 : (scene.capsules[0] as number)),
    busy_us: (seen_m) => (seen_m === Infinity ? 20_000 : Math.round(seen_m * 6000)),
    reading: (seen_m, u) => {
      if (seen_m === Infinity) return NO_ECHO;
      return Math.max(0, Math.round(1e6 * (seen_m + sd_m * normalQuantile(u, 0, 1))));
    },
    strays_m: [0.05, 3],
    ear: null,
  };
}

/** Somebody who stands at so many metres for a while. */
export interface Guest {
  readonly start_us: number;
  readonly end_us: number;
  readonly seen_m: number;
}

export type Row = readonly [what: string, door: number, beam: number, time_us: number, value: number];

export interface House {
  readonly controllers: readonly object[];
  /** Beams per door, and the controller that reads them. */
  readonly doors: readonly { readonly controller: string; readonly beams: number }[];
  readonly sensor?: Partial<Omit<UltrasonicRanger, 'switching'>> & { readonly switching?: object };
  readonly sd_m?: number;
  readonly early_us?: number;
  /** Guests by door. */
  readonly guests?: readonly (readonly Guest[])[];
  readonly clock_us: number;
  readonly seed?: string;
}

/** Everything that is told in a clock, in order; readings too. */
export function rowsOf(house: House, jumps: boolean): Row[] {
  const { sd_m = 0, early_us = 0, clock_us, seed = '1' } = house;
  const root = Stream.root(seed);
  const sensor = ultrasonicSchema.parse({ kind: 'ultrasonic-ranger', ...house.sensor });
  const slots = house.doors.map(({ beams }, door) =>
    Array.from(
      { length: beams },
      (_, beam) =>
        new Slot<Guest>(door, beam, plainRanger(sd_m, early_us), sensor, root.child(`${door} ${beam}`), clock_us),
    ),
  );
  const controllers = house.controllers.map((controller) => controllerSchema.parse(controller));
  const rounds = roundsOf(
    controllers,
    house.doors.map(({ controller, beams }, door) => ({
      name: `door ${door}`,
      controller,
      beams: Array.from({ length: beams }, (_, beam) => ({ name: String(beam), ranger: true })),
    })),
  );
  const busy = rounds.filter(({ turns }) => turns.length > 0);
  const desks = busy.map(
    (round) => new Desk(round, (door, beam) => slots[door]?.[beam] as Slot, root.child(round.controller.name)),
  );
  const rows: Row[] = [];
  const scene: Scene = { count: 1, capsules: new Float64Array(7), clothing: new Float64Array(1) };
  const scanner = new Scanner<Guest>(
    desks,
    () => null,
    {
      scene(slot, pose_us) {
        slot.forget(pose_us);
        const guest = slot.attending.find(({ start_us }) => start_us <= pose_us);
        if (!guest) return null;
        scene.capsules[0] = guest.seen_m;
        return scene;
      },
      edge: ({ door, beam }, time_us, level) => rows.push(['edge', door, beam, time_us, level]),
      reading: ({ door, beam }, time_us, distance_um) => rows.push(['reading', door, beam, time_us, distance_um]),
    },
    jumps,
  );
  const coming = (house.guests ?? [])
    .flatMap((guests, door) => guests.map((guest) => ({ guest, door })))
    .sort((a, b) => a.guest.start_us - b.guest.start_us);
  for (const { guest, door } of coming) {
    scanner.until(guest.start_us);
    for (const slot of slots[door] ?? []) slot.attending.push(guest);
  }
  scanner.until(clock_us + 5_000_000);
  return rows;
}
