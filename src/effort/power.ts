/** What sensors and controllers take day and night. */
import type { Design } from '../scenario/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import { sortOf } from './ends.js';
import { POWER } from './figures.js';
import { thousandths } from './thousandths.js';

export interface PowerLine {
  /** Name of the sensor or the controller. */
  readonly of: string;
  readonly count: number;
  readonly power_mw: number;
  readonly watt_hours_a_day: number;
  /** Whether it states no power of its own. */
  readonly assumed: boolean;
}

/** One line a sensor, with how many there are in all doors, and one a controller. */
export function powerLines(
  design: Design,
  controllers: readonly { readonly name: string; readonly power_mw?: number | undefined }[],
): PowerLine[] {
  const sensors = new Map<string, number>();
  for (const { beams } of design.doors)
    for (const { sensor } of beams) sensors.set(sensor, (sensors.get(sensor) ?? 0) + 1);
  const line = (of: string, count: number, own: number | undefined, assumed: number): PowerLine => {
    const power_mw = own ?? assumed;
    return {
      of,
      count,
      power_mw,
      watt_hours_a_day: thousandths((count * power_mw * 24) / 1000),
      assumed: own === undefined,
    };
  };
  return [
    ...[...sensors].map(([name, count]) => {
      const sensor = sensorNamed(design, name);
      return line(name, count, sensor.power_mw, POWER.value[sortOf(sensor)]);
    }),
    ...controllers.map(({ name, power_mw }) => line(name, 1, power_mw, POWER.value.controller)),
  ];
}
