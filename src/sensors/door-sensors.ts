/**
 * All sensors of one door, asked together: what is in the beams goes in, what the sensors say comes out.
 *
 * A kind of sensor is one module that gives its paths (lines from an emitter to a receiver), turns what is in them into
 * edges, and adds its own noise. Sensors of a door are asked together so that one can disturb another.
 */
import type { BeamLine } from '../geometry/beam-line.js';
import type { Edge } from './edge.js';

/** A line that is watched: from one beam's emitter to the same or another beam's receiver. */
export interface BeamPath {
  readonly line: BeamLine;
  /** Indices among the door's beams. */
  readonly emitter: number;
  readonly receiver: number;
  /** How much nearer or further than touching a capsule of this radius breaks the path, metres; −Infinity: never. */
  readonly clearance: (radius_m: number) => number;
}

/** What one visit did to each path: sorted intervals, absolute microseconds, not rounded. */
export interface Shadow {
  readonly visit: number;
  readonly body: number;
  /** One list [start, end, start, end, …] per path. */
  readonly breaks: readonly (readonly number[])[];
}

/**
 * The sensors of one door over one clock. They are asked in one of two ways: wired to interrupts, for every edge in a
 * window; or polled, for the levels at an instant. Time only goes forward.
 */
export interface DoorSensors {
  readonly paths: readonly BeamPath[];
  /** Shadows of visits that overlap in time, all of them: nothing of them is still to come. */
  episode(shadows: readonly Shadow[]): void;
  /** Edges since the last question and before `until_us`, in order of time, then beam. */
  edgesUntil(until_us: number): readonly Edge[];
  /** Levels at an instant, as bits: bit i is set while beam i is broken. */
  read(at_us: number): number;
}
