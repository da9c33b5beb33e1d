/** Short ways to write a switch and its readings, for the tests of this folder. */
import { NO_ECHO } from '../../../src/sensors/ranger.js';
import { Switch } from '../../../src/sensors/switching/switch.js';
import { switchingSchema } from '../../../src/sensors/switching/schema.js';

/** End of the range in these tests. */
export const FARTHEST_UM = 4_000_000;

export function switchWith(settings: object): Switch {
  return new Switch(switchingSchema.parse(settings), FARTHEST_UM);
}

/** A reading of so many millimetres; null without echo. */
export function um(mm: number | null): number {
  return mm === null ? NO_ECHO : Math.round(mm * 1000);
}

/** Levels after each of some readings, a fixed time apart. */
export function levels(of: Switch, readings: readonly (number | null)[], from_us = 0, every_us = 10_000): string {
  return readings
    .map((mm, index) => {
      of.reading(from_us + index * every_us, um(mm));
      return of.level;
    })
    .join('');
}
