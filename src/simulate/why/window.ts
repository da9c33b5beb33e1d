/** A stretch of time at one door around a wrong count: where all stood before it, and who came. */
import type { HostSnapshot } from '../../counter/host.js';
import type { LineSensors } from '../door-line.js';
import type { HouseRangers } from '../house-rangers.js';
import type { Arrival } from '../parties.js';

export interface Window {
  /** Index of the door. */
  readonly door: number;
  /** Somebody enters the empty doorway, or the clock starts. */
  readonly start_us: number;
  /** Nothing later can belong to it, microseconds. */
  readonly end_us: number;
  /** Where each logic stood at the start. */
  readonly snapshots: readonly HostSnapshot[];
  readonly sensors: LineSensors;
  readonly rangers: HouseRangers | null;
  /** In order of entering, over all doors. */
  readonly arrived: readonly Arrival[];
}

/** What the controller gave to the logics. */
export type Told =
  | {
      readonly kind: 'input';
      readonly time_us: number;
      readonly mask: number;
      /** False for a reading that changed no level. */
      readonly changed: boolean;
      readonly readings: readonly (number | null)[] | undefined;
    }
  /** Timers up to then still ran out. */
  | { readonly kind: 'down'; readonly time_us: number }
  | { readonly kind: 'up'; readonly time_us: number; readonly mask: number };
