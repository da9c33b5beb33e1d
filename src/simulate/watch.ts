/** Who looks on closely while a replicate runs: what happens at each door, and who does it. All are optional. */
import type { Body } from '../agents/body.js';
import type { Passage } from '../agents/motion/passage.js';
import type { Visit } from '../agents/visit.js';
import type { HostStep } from '../counter/host.js';
import type { Level, Readings } from '../counter/logic.js';
import type { Verdict } from '../score/match.js';
import type { Sign } from '../score/score-sink.js';
import type { DoorMoment } from './door-line.js';
import type { HouseRangers } from './house-rangers.js';

/** A door between two visits, and the rangers of the house. */
export interface Moment extends DoorMoment {
  /** The house's rangers, to go on another way; null when it has none. */
  rangers(): HouseRangers | null;
}

/** Doors and logics by their index in the design, times in microseconds of the clock. */
export interface Watch {
  /** A visit with the body that makes it, before its door sees it; in order of entering over all doors. */
  visit?(visit: Visit, body: Body, passage: Passage): void;
  /** Somebody enters an empty doorway: where all stands then can be asked for, before this returns. */
  opens?(door: number, start_us: number, moment: Moment): void;
  /** A change of a beam as the controller sees it. */
  edge?(door: number, beam: number, time_us: number, level: Level): void;
  /** A reading of a ranger: whole micrometres, −1 without echo; `near` if it is near enough to count as broken at rest. */
  reading?(door: number, beam: number, time_us: number, distance_um: number, near: boolean): void;
  /** All that the controller gives to the logics of a door at one instant. */
  input?(door: number, time_us: number, mask: number, readings: Readings | undefined): void;
  /** A step of a logic. */
  step?(door: number, logic: number, step: HostStep): void;
  /** A visit has been judged, some time after it ended. The verdict is used again: copy what you keep. */
  judged?(door: number, logic: number, visit: Visit, verdict: Readonly<Verdict>): void;
  /** A tally of nobody. */
  nobody?(door: number, logic: number, time_us: number, sign: Sign): void;
}
