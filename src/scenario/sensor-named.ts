/** From the name a beam gives its sensor to the sensor. */
import { type Sensor, sensorSchema } from '../sensors/schema.js';
import type { Design } from './schema.js';

/** A sensor of the scenario's own, or a kind's default by its bare name. */
export function sensorNamed(design: Design, name: string): Sensor {
  const own = Object.hasOwn(design.sensors, name) ? design.sensors[name] : undefined;
  return own ?? sensorSchema.parse({ kind: name });
}
