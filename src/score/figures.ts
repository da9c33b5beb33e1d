/** Aggregates that charts are drawn from: what figures.json holds. Never raw events. */
import type { Estimate } from './metrics-schema.js';

/** Counted minus true net flow through a door over the clock: quantiles over replicates. */
export interface DriftBands {
  readonly door: string;
  readonly logic: string;
  readonly clock_h: readonly number[];
  readonly q05: readonly number[];
  readonly q25: readonly number[];
  readonly q50: readonly number[];
  readonly q75: readonly number[];
  readonly q95: readonly number[];
}

/** True and counted persons in a room over the first replicate, as steps (value holds from its time on). */
export interface RoomTrace {
  readonly room: string;
  readonly logic: string;
  readonly ledger: string;
  readonly time_h: readonly number[];
  readonly truth: readonly number[];
  readonly counted: readonly number[];
}

/** A posed body as seen walking forward through the opening: capsules flattened to x (across) and z (up). */
export interface Silhouette {
  readonly who: string;
  readonly stature_m: number;
  readonly capsules: readonly {
    readonly x0: number;
    readonly z0: number;
    readonly x1: number;
    readonly z1: number;
    readonly radius: number;
  }[];
}

/** The first replicates with everybody's clothes absorbing at the least, as drawn, or at the most. */
export interface ClothingRun {
  readonly what: 'least' | 'as drawn' | 'most';
  /** How many replicates, the first ones. */
  readonly replicates: number;
  /** Of the house, with the first logic. */
  readonly wrong_per_100: Estimate;
}

export interface Figures {
  readonly format: 1;
  readonly drift: readonly DriftBands[];
  readonly rooms: readonly RoomTrace[];
  readonly silhouettes: readonly Silhouette[];
  /** With rangers whose echo depends on clothing; how much it absorbs is an assumption. */
  readonly clothing?: readonly ClothingRun[];
}
