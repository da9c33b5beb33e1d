/** What the crowd needs to know of a design: who may come, through which doors, between which rooms. */
import type { HouseholdPlan } from './household/plan.js';
import type { Hangs } from './leaf/hanging.js';
import type { Opening } from './motion/passage.js';
import type { Traffic, Walker } from './schema.js';

export interface CrowdDoor {
  readonly name: string;
  /** Index of the room forward moves come from, or `OUTSIDE`. */
  readonly from: number;
  readonly to: number;
  readonly opening: Opening;
  readonly traffic: Traffic;
  /** Middle of the door on the house's plan, metres; absent where it isn't said. */
  readonly at_m?: { readonly x: number; readonly y: number } | undefined;
  /** What hangs in the frame or beside it; left out, the way is always open. */
  readonly hangs?: Hangs | undefined;
}

export interface CrowdPlan {
  /** Persons in each room at the start. */
  readonly people_at_start: readonly number[];
  readonly doors: readonly CrowdDoor[];
  /** By name; whoever a household sends through a door is among them, also with what they carry. */
  readonly walkers: Readonly<Record<string, Walker>>;
  /** Length of the clock, microseconds. */
  readonly clock_us: number;
  /** Clock time at the start, hours since midnight. */
  readonly starts_at_h: number;
  /** Who lives in the house, where the doors' traffic comes of that; absent where each door has its own. */
  readonly household?: HouseholdPlan | undefined;
}
