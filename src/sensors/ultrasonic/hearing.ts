/** One ranger's hearing of its own echoes, worked out once: place, axis, loudness and the tables of a reading. */
import type { BeamLine } from '../../geometry/beam-line.js';
import { vectorOf } from '../../geometry/beam-line.js';
import type { Surroundings } from '../surroundings.js';
import { absorption, speedOfSound } from './air.js';
import { powerOf } from './decibel.js';
import { directivityTable, sizeInWaves } from './piston.js';
import type { UltrasonicRanger } from './schema.js';
import { Table, keptTable } from './table.js';

export interface Hearing extends Pointing {
  readonly speed_mps: number;
  readonly wavelength_m: number;
  readonly ka: number;
  /** Power of the burst at 1 m against the least that is heard. */
  readonly gain: number;
  /** Power left of 1 after so many metres of air. */
  readonly air: Table;
  readonly absorption_db_per_m: number;
  /** One way, over sin². */
  readonly beam: Table;
  /** Power left by a body's clothing over its uniform. */
  readonly clothing: Table;
  readonly diffuse: number;
  readonly blind_m: number;
  /** Furthest echo that comes before the controller stops waiting. */
  readonly reach_m: number;
}

export function hearingOf(line: BeamLine, sensor: UltrasonicRanger, air: Surroundings): Hearing {
  const { x, y, z, dx, dy, dz } = pointing(line);
  const speed_mps = speedOfSound(air.temperature_c);
  const frequency = sensor.frequency_khz * 1000;
  const ka = sizeInWaves(frequency, sensor.piston_radius_m, speed_mps);
  const alpha = absorption(frequency, air);
  const reach_m = Math.min(sensor.range_m, (sensor.time_out_ms * speed_mps) / 2000);
  const { clothing_least_db: least, clothing_most_db: most } = sensor;
  return {
    x,
    y,
    z,
    dx,
    dy,
    dz,
    speed_mps,
    wavelength_m: speed_mps / frequency,
    ka,
    gain: powerOf(sensor.source_level_db - sensor.threshold_db),
    air: airTable(alpha, 2 * reach_m),
    absorption_db_per_m: alpha,
    beam: directivityTable(ka, sensor.shading_db),
    clothing: new Table(1, 1024, (u) => powerOf(-(least + u * (most - least)))),
    diffuse: powerOf(sensor.diffuse_db),
    blind_m: sensor.blind_m,
    reach_m,
  };
}

/** Power left after a way through air, up to a length. */
export function airTable(absorption_db_per_m: number, to_m: number): Table {
  return keptTable(
    `air ${absorption_db_per_m} ${to_m}`,
    () => new Table(to_m, 4096, (way_m) => powerOf(-absorption_db_per_m * way_m)),
  );
}

/** Place, and unit vector along the axis; door axes, metres. */
export interface Pointing {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly dx: number;
  readonly dy: number;
  readonly dz: number;
}

export function pointing(line: BeamLine): Pointing {
  const { from } = line;
  const { x, y, z, length_m } = vectorOf(line);
  return { x: from.x, y: from.y, z: from.z, dx: x / length_m, dy: y / length_m, dz: z / length_m };
}
