/** How many pins and inputs of a controller its sensors take. */
import type { SensorKind } from '../schema.js';

export interface Pins {
  readonly digital: number;
  readonly analogue: number;
}

/** What each sensor of a kind takes, and what all of the kind share on one controller. Common practice, no source. */
const NEEDS: Record<SensorKind, { readonly each: Pins; readonly shared: Pins }> = {
  'light-barrier': { each: { digital: 1, analogue: 0 }, shared: { digital: 0, analogue: 0 } },
  // One starts the burst, one listens for the echo.
  'ultrasonic-ranger': { each: { digital: 2, analogue: 0 }, shared: { digital: 0, analogue: 0 } },
  'triangulation-ranger': { each: { digital: 0, analogue: 1 }, shared: { digital: 0, analogue: 0 } },
  // They share the two lines of a bus, and are told apart at the start by a line each that wakes them.
  'time-of-flight-ranger': { each: { digital: 1, analogue: 0 }, shared: { digital: 2, analogue: 0 } },
};

/** @param kinds the kind of each sensor on one controller */
export function pinsOf(kinds: readonly SensorKind[]): Pins {
  let digital = 0;
  let analogue = 0;
  for (const kind of kinds) {
    digital += NEEDS[kind].each.digital;
    analogue += NEEDS[kind].each.analogue;
  }
  for (const kind of new Set(kinds)) {
    digital += NEEDS[kind].shared.digital;
    analogue += NEEDS[kind].shared.analogue;
  }
  return { digital, analogue };
}
