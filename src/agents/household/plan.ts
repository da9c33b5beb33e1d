/** What the household's crowd needs to know: who lives by which habits, in which rooms. */
import type { HouseRoom } from './places.js';
import type { Habits, Household, Weekday } from './schema.js';

export interface HouseholdPlan {
  readonly household: Household;
  /** Habits of the user's own, by name. */
  readonly habits: Readonly<Record<string, Habits>>;
  /** In the design's order. */
  readonly rooms: readonly HouseRoom[];
  readonly starts_on: Weekday;
}
