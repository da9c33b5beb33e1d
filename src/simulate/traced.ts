/** A passage under the magnifying glass, as data: what is asked for, and what is told of it. */
import type { MixKind } from '../agents/schema.js';
import type { Visit } from '../agents/visit.js';
import type { Direction, Level } from '../counter/logic.js';
import type { Verdict } from '../score/match.js';
import type { SensorKind } from '../sensors/schema.js';

/** Which walk is to be followed. */
export interface PassageChoice {
  /** Name of the door; the first if left out. */
  readonly door?: string;
  readonly who: string;
  readonly kind: MixKind;
  /** Which way the party sets out; forward if left out. */
  readonly direction?: Direction;
  /** Which of the many such passages, from 1: another number, another person. */
  readonly number?: number;
}

/** One body's visit. */
export interface TracedVisit extends Visit {
  /** Undisturbed speed, m/s. */
  readonly speed_mps: number;
  /** Per beam, true breaks of a light barrier, of a ranger's axis; [start, end, …] in microseconds, not rounded. */
  readonly true_breaks_us: readonly (readonly number[])[];
}

export interface TracedEdge {
  readonly time_us: number;
  /** Index of the beam. */
  readonly beam: number;
  readonly level: Level;
}

export interface TracedReading {
  readonly time_us: number;
  /** Index of the beam. */
  readonly beam: number;
  readonly distance_um: number | null;
}

/** What the controller gives to the logics at one instant. */
export interface TracedInput {
  readonly time_us: number;
  readonly levels: readonly Level[];
}

/** A step of one logic. */
export interface TracedStep {
  readonly time_us: number;
  readonly state: string;
  readonly tallies: readonly Direction[];
  /** True for a timeout, false for an input from the beams. */
  readonly timeout: boolean;
}

export interface TracedLogic {
  readonly logic: string;
  readonly start: string;
  readonly steps: readonly TracedStep[];
  /** What was made of each visit, in their order: persons counted forward, backward, not at all, and extra tallies. */
  readonly verdicts: readonly Readonly<Verdict>[];
  /** Tallies outside every visit: of nobody. */
  readonly of_nobody: number;
}

/** A beam half-way across the opening. */
export interface TracedBeam {
  readonly name: string;
  readonly kind: SensorKind;
  readonly height_m: number;
  readonly at_m: number;
}

/** One walk instant by instant: levels, states, tallies, and what was right or wrong. */
export interface PassageTrace {
  readonly scenario: string;
  readonly door: string;
  readonly width_m: number;
  readonly beams: readonly TracedBeam[];
  readonly poll_ms: number | null;
  readonly who: string;
  readonly kind: MixKind;
  readonly direction: Direction;
  readonly number: number;
  readonly visits: readonly TracedVisit[];
  /** What the sensors report, in order of time. */
  readonly edges: readonly TracedEdge[];
  /** What the rangers read from the first one's entering on, in order of time; null without echo. */
  readonly readings: readonly TracedReading[];
  /** What the logics are given, in order of time: the same as the edges unless the controller polls. */
  readonly inputs: readonly TracedInput[];
  readonly logics: readonly TracedLogic[];
}

/** What can't be traced, with the words for the user. */
export class NoSuchPassage extends Error {
  override readonly name = 'NoSuchPassage';
  constructor(
    message: string,
    readonly hint: string,
  ) {
    super(message);
  }
}
