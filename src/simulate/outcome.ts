/** What a simulation takes and gives: plain data in, rows to sinks while it runs, metrics and figures at the end. */
import type { Visit } from '../agents/visit.js';
import type { Direction, Level } from '../counter/logic.js';
import type { Figures } from '../score/figures.js';
import type { Metrics } from '../score/metrics-schema.js';

/** One tally of one logic. A row of tallies.csv. */
export interface TallyRow {
  readonly door: number;
  /** Index of the logic in the design. */
  readonly logic: number;
  readonly time_us: number;
  readonly direction: Direction;
}
/** One change of one beam, as its controller has it. A row of edges.csv. */
export interface EdgeRow {
  readonly door: number;
  readonly beam: number;
  readonly time_us: number;
  readonly level: Level;
}

/** One reading of a ranger. A row of readings.csv. */
export interface ReadingRow {
  readonly door: number;
  readonly beam: number;
  /** When the controller has it. */
  readonly time_us: number;
  /** Whole micrometres, or −1 without echo. */
  readonly distance_um: number;
}

/** Where rows go, per replicate (from 1) in order of time, at one instant by door. All are optional. */
export interface Sinks {
  passage?(replicate: number, visit: Visit): void;
  tally?(replicate: number, row: TallyRow): void;
  edge?(replicate: number, row: EdgeRow): void;
  /** Readings of rangers while somebody is about or their switching is at work, and otherwise those that differ from the one before. */
  reading?(replicate: number, row: ReadingRow): void;
  /** Called now and then with replicates done (a fraction counts the running one) and of how many. */
  progress?(done: number, of: number): void;
}

/** All that a simulation found. */
export interface Outcome {
  readonly metrics: Metrics;
  readonly figures: Figures;
}
