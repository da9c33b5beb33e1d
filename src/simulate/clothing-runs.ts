/**
 * What the headline would be if clothes absorbed more or less than assumed: the first replicates run again with
 * everybody at the one end of what is assumed, and at the other. The crowds and all other chance are the same.
 */
import type { Design } from '../scenario/schema.js';
import type { ClothingRun } from '../score/figures.js';
import type { Sensor } from '../sensors/schema.js';
import { SENSOR_KINDS } from '../sensors/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';

/** How many replicates are run again, for each end. */
export const CLOTHED_AGAIN = 4;

type End = Exclude<ClothingRun['what'], 'as drawn'>;

/** Designs in which clothes absorb at the least and at the most; null where no sensor minds clothes. */
export function clothingDesigns(design: Design): Readonly<Record<End, Design>> | null {
  const used = new Set(design.doors.flatMap(({ beams }) => beams.map(({ sensor }) => sensor)));
  const minds = [...used].some((name) => {
    const sensor = sensorNamed(design, name);
    return JSON.stringify(clothed(sensor, 'least')) !== JSON.stringify(clothed(sensor, 'most'));
  });
  return minds ? { least: withClothes(design, 'least'), most: withClothes(design, 'most') } : null;
}

function withClothes(design: Design, end: End): Design {
  const names = new Set<string>([...SENSOR_KINDS, ...Object.keys(design.sensors)]);
  const sensors = Object.fromEntries([...names].map((name) => [name, clothed(sensorNamed(design, name), end)]));
  return { ...design, sensors };
}

function clothed(sensor: Sensor, end: End): Sensor {
  if (sensor.kind === 'ultrasonic-ranger') {
    const loss_db = end === 'least' ? sensor.clothing_least_db : sensor.clothing_most_db;
    return { ...sensor, clothing_least_db: loss_db, clothing_most_db: loss_db };
  }
  if (sensor.kind === 'time-of-flight-ranger') {
    const reflectance = end === 'least' ? sensor.reflectance_most : sensor.reflectance_least;
    return { ...sensor, reflectance_least: reflectance, reflectance_most: reflectance };
  }
  return sensor;
}
