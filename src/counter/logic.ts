/**
 * The one interface of counting logics, ours and a user's own: a pure step from beam levels to tallies.
 *
 * The host gives one input per instant: the time and the level of *every* beam of the door, whether one changed or
 * several. `state` is opaque to the host and must not be mutated: a step returns the next one.
 */

/** From `from` to `to` is forward (+y). */
export type Direction = 'forward' | 'backward';

/** 1 while the beam is broken, 0 while it is clear. */
export type Level = 0 | 1;

export interface LogicInput {
  /** Integer microseconds since the clock's start. Never decreases. */
  readonly time_us: number;
  /** One level per beam, in the door's order of beams. */
  readonly levels: readonly Level[];
}

export interface LogicStep<State> {
  readonly state: State;
  /** Tallies at this instant, one person each; most steps have none. */
  readonly tallies: readonly Direction[];
  /** Ask for an unchanged input at this time (integer microseconds, later than the input's); replaces an earlier wish, absence cancels it. */
  readonly wake_us?: number | undefined;
}

export interface Logic<State = unknown> {
  readonly name: string;
  /** How long after a body has left the doorway zone a tally of its passage may still come, microseconds, below 2³¹. */
  readonly latency_us: number;
  /** How many beams the logic expects; the design's doors must have as many. */
  readonly beams: number;
  /** One sentence on what defeats it, for reports. */
  readonly defeated_by: string;
  initial(): State;
  step(state: State, input: LogicInput): LogicStep<State>;
  /** Short label of a state for traces and pictures. */
  label(state: State): string;
}
