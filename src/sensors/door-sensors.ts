/**
 * All sensors of one door, asked together: what is in the beams goes in, what the sensors say comes out.
 *
 * A kind of sensor is one module that gives its paths (lines from an emitter to a receiver), turns what is in them into
 * edges, and adds its own noise. Sensors of a door are asked together so that one can disturb another.
 */
import type { BeamLine } from '../geometry/beam-line.js';

/** A line that is watched: from one beam's emitter to the same or another beam's receiver. */
export interface BeamPath {
  readonly line: BeamLine;
  /** Indices among the door's beams. */
  readonly emitter: number;
  readonly receiver: number;
  /** How much nearer or further than touching a capsule of this radius breaks the path, metres; −Infinity: never. */
  clearance(radius_m: number): number;
}

/** What one visit did to each path: sorted intervals, absolute microseconds, not rounded. */
export interface Shadow {
  readonly visit: number;
  readonly body: number;
  /** One list [start, end, start, end, …] per path. */
  readonly breaks: readonly (readonly number[])[];
}
