/** A house as it is lived in: its plan, its people, its clock. What happens in it is put on the clock and moves people by trips. */
import type { Clock } from '../../engine/clock.js';
import type { CrowdDoor } from '../crowd-plan.js';
import type { Happening } from '../doorways.js';
import type { Calendar } from './calendar.js';
import type { Places } from './places.js';
import type { Residents } from './residents.js';
import type { Routes } from './route.js';
import type { Habits, Household } from './schema.js';

export interface House {
  readonly household: Household;
  /** Habits of the user's own, by name. */
  readonly habits: Readonly<Record<string, Habits>>;
  readonly doors: readonly CrowdDoor[];
  readonly routes: Routes;
  readonly places: Places;
  readonly calendar: Calendar;
  readonly residents: Residents;
  readonly clock: Clock<Happening>;
  /** Length of the clock, microseconds: nothing happens from then on. */
  readonly clock_us: number;
}
