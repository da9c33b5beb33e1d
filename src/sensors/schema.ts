/** What a user writes about sensors: the kinds' pieces joined. */
import { z } from 'zod';
import { type LightBarrier, lightBarrierSchema } from './light-barrier/schema.js';
import { timeOfFlightSchema } from './time-of-flight/schema.js';
import { triangulationSchema } from './triangulation/schema.js';
import { ultrasonicSchema } from './ultrasonic/schema.js';

/** Every kind of sensor; a new kind adds its schema here. */
export const sensorSchema = z.discriminatedUnion('kind', [
  lightBarrierSchema,
  ultrasonicSchema,
  triangulationSchema,
  timeOfFlightSchema,
]);
export type Sensor = z.infer<typeof sensorSchema>;
export type SensorKind = Sensor['kind'];
export type { LightBarrier };
export type RangerSensor = Exclude<Sensor, LightBarrier>;

/** Kinds by name; each name alone stands for the kind with all its defaults. */
export const SENSOR_KINDS = [
  'light-barrier',
  'ultrasonic-ranger',
  'triangulation-ranger',
  'time-of-flight-ranger',
] as const satisfies readonly SensorKind[];
