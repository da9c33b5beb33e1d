/** From where a beam is mounted to the line it looks along, in the door's axes. */
import { DEG, cos, sin } from '../engine/arithmetic.js';
import type { BeamLine, Point } from './beam-line.js';
import type { Mount } from './schema.js';

/** What a design says of a beam's place. */
export interface Mounting {
  readonly mount: Mount;
  readonly at_m: number;
  readonly height_m: number;
  readonly across_m?: number | undefined;
  readonly far_at_m?: number | undefined;
  readonly far_height_m?: number | undefined;
  readonly tilt_deg?: number | undefined;
  readonly turn_deg?: number | undefined;
}

export interface Opening {
  readonly width_m: number;
  readonly height_m: number;
}

/** A light barrier's line, from emitter to receiver in the other jamb. */
export function barrierLine(beam: Mounting, { width_m }: Opening): BeamLine {
  const left = beam.mount !== 'right-jamb';
  return {
    from: { x: left ? 0 : width_m, y: beam.at_m, z: beam.height_m },
    to: { x: left ? width_m : 0, y: beam.far_at_m ?? beam.at_m, z: beam.far_height_m ?? beam.height_m },
  };
}

/** A ranger's axis, from the sensor to where it leaves the opening: at the other jamb, the floor or the lintel. */
export function rangerLine(beam: Mounting, opening: Opening): BeamLine {
  const from = placeOf(beam, opening);
  const axis = axisOf(beam);
  const length = Math.min(
    reach(from.x, axis.x, 0, opening.width_m),
    reach(from.z, axis.z, 0, Math.max(opening.height_m, from.z)),
  );
  return { from, to: { x: from.x + length * axis.x, y: from.y + length * axis.y, z: from.z + length * axis.z } };
}

function placeOf(beam: Mounting, { width_m }: Opening): Point {
  const x = beam.mount === 'lintel' ? (beam.across_m ?? width_m / 2) : beam.mount === 'right-jamb' ? width_m : 0;
  return { x, y: beam.at_m, z: beam.height_m };
}

/** Unit vector a ranger looks along: its plain direction, tilted within the door plane, then turned out of it. */
function axisOf({ mount, tilt_deg = 0, turn_deg = 0 }: Mounting): Point {
  const [ct, st] = tilt_deg === 0 ? [1, 0] : [cos(tilt_deg * DEG), sin(tilt_deg * DEG)];
  const [cy, sy] = turn_deg === 0 ? [1, 0] : [cos(turn_deg * DEG), sin(turn_deg * DEG)];
  if (mount === 'lintel') return { x: cy * st, y: sy, z: -cy * ct };
  return { x: mount === 'right-jamb' ? -cy * ct : cy * ct, y: sy, z: cy * st };
}

/** How far along a direction one coordinate stays between two limits. */
function reach(at: number, towards: number, low: number, high: number): number {
  if (towards > 0) return (high - at) / towards;
  if (towards < 0) return (low - at) / towards;
  return Infinity;
}
