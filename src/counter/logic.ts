/**
 * The one interface of counting logics, ours and a user's own: a pure step from beam levels to tallies.
 *
 * The host gives one input per instant: the time and the level of *every* beam of the door, whether one changed or
 * several. `state` is opaque to the host and must not be mutated: a step returns the next one.
 *
 * A logic of another make, a program that keeps its state to itself, is an {@link OutsideLogic}: host.ts drives both.
 */

/** From `from` to `to` is forward (+y). */
export type Direction = 'forward' | 'backward';

/** 1 while the beam is broken, 0 while it is clear. */
export type Level = 0 | 1;

/** What a logic is told at one instant. */
export interface LogicInput {
  /** Integer microseconds since the clock's start. Never decreases. */
  readonly time_us: number;
  /** One level per beam, in the door's order of beams. */
  readonly levels: readonly Level[];
  /** The last reading of each beam; only for logics that ask for `readings`. */
  readonly readings?: Readings | undefined;
}

/** Per beam, whole micrometres; null without echo, before the first reading, and for a light barrier. */
export type Readings = readonly (number | null)[];

/** What a logic answers to one input. */
export interface LogicStep<State> {
  readonly state: State;
  /** Tallies at this instant, one person each; most steps have none. */
  readonly tallies: readonly Direction[];
  /** Ask for an unchanged input at this time (integer microseconds, later than the input's); replaces an earlier wish, absence cancels it. */
  readonly wake_us?: number | undefined;
}

/** What is known of a logic before it counts. */
export interface LogicAbout {
  readonly name: string;
  /** How long after a body has left the doorway zone a tally of its passage may still come, microseconds, below 2³¹. */
  readonly latency_us: number;
  /** How many beams the logic expects; the design's doors must have as many. */
  readonly beams: number;
  /** Whether it wants an input at every reading of a ranger too, not only when a level changes. */
  readonly readings?: boolean | undefined;
  /** One sentence on what defeats it, for reports. */
  readonly defeated_by: string;
}

/** A logic that can be driven: pure, its state plain data. */
export interface Logic<State = unknown> extends LogicAbout {
  initial(): State;
  step(state: State, input: LogicInput): LogicStep<State>;
  /** Short label of a state for traces and pictures. */
  label(state: State): string;
}
