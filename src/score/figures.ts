/** Aggregates that charts are drawn from: what figures.json holds. Never raw events. */
import type { Bands, DriftBands } from './drift-bands.js';
import type { Picture } from './pictures.js';
import type { Estimate } from './metrics-schema.js';
import type { ReplicateSample } from './replicate-sample.js';

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
  /** What sort of body it is; runs of earlier versions don't say. */
  readonly is?: 'adult' | 'child' | 'pet' | 'other';
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

/** The first replicates with traffic at half, as assumed, or at double. */
export interface ActivityRun {
  readonly what: 'half' | 'as assumed' | 'double';
  /** How many replicates, the first ones. */
  readonly replicates: number;
  /** Of the house, with the first logic. */
  readonly wrong_per_100: Estimate;
  /** All rooms at once, with the first logic and ledger; none where no room is counted. */
  readonly exact_share?: Estimate;
  readonly first_wrong_h?: Estimate;
}

/** Counted minus true persons in a room over the clock, with the first logic: quantiles over replicates. */
export interface RoomDriftBands extends Bands {
  readonly room: string;
  readonly logic: string;
  readonly ledger: string;
}

/** Share of replicates whose count of a room has not been wrong yet, as steps (a value holds from its time on). */
export interface SurvivalCurve {
  readonly room: string;
  readonly logic: string;
  readonly ledger: string;
  /** The first is the clock's start, the last its end. */
  readonly time_h: readonly number[];
  readonly share: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** Persons who went through a door, by hour of a week: lists of one length, one place an hour that the clock covers. */
export interface HourlyCounts {
  readonly door: string;
  /** From 0 to 6. */
  readonly day: readonly number[];
  /** From 0 to 23. */
  readonly hour: readonly number[];
  /** Sums over all replicates. */
  readonly forward: readonly number[];
  readonly backward: readonly number[];
  /** Hours that all clocks together spent in it: what the sums are divided by. */
  readonly covered_h: readonly number[];
}

/** What a log was like that was replayed instead of a simulation. */
export interface ReplayedLog {
  readonly rows: number;
  readonly edges: number;
  readonly readings: number;
  /** From the first row to the last. */
  readonly span_h: number;
  /** Rows that were late and put in order, and rows that were there twice. */
  readonly out_of_order: number;
  readonly duplicates: number;
  /** Levels that came again without a change in between: an edge may be missing. */
  readonly repeated: number;
  /** Turns of a 32-bit counter. */
  readonly wraps: number;
  /** Silences that a turn of the counter may hide in: durations across them are not known. */
  readonly silences: readonly { readonly line: number; readonly from_us: number; readonly at_least_us: number }[];
  /** Beams that were still broken when the log ended. */
  readonly unfinished: readonly { readonly door: string; readonly beam: string }[];
  /** Whether it was written by `jambeam run`. */
  readonly own: boolean;
}

/** Aggregates that a report draws its charts from. What figures.json holds. */
export interface Figures {
  readonly format: 1;
  readonly drift: readonly DriftBands[];
  readonly room_drift: readonly RoomDriftBands[];
  readonly survival: readonly SurvivalCurve[];
  readonly hourly: readonly HourlyCounts[];
  readonly rooms: readonly RoomTrace[];
  readonly silhouettes: readonly Silhouette[];
  /** What each replicate found, in order of their numbers; runs of before this was kept have none. */
  readonly replicates?: readonly ReplicateSample[];
  /** With rangers whose echo depends on clothing; how much it absorbs is an assumption. */
  readonly clothing?: readonly ClothingRun[];
  /** Where it was asked for: how busy a house is is an assumption. */
  readonly activity?: readonly ActivityRun[];
  /** The most telling visits that went wrong. */
  readonly pictures?: readonly Picture[];
  /** Where a log was replayed: nothing was simulated then. */
  readonly replayed?: ReplayedLog;
}
