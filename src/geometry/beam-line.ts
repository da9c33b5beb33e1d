/**
 * Straight lines from an emitter to a receiver, and how a walker sees them.
 *
 * Room axes: x across the opening from the left jamb (0) to the right one, y along the walk (0 = door plane, forward
 * is +), z up from the floor; metres. Left and right as seen walking forward.
 */
import { sin, cos } from '../engine/arithmetic.js';

export interface Point {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export interface BeamLine {
  readonly from: Point;
  readonly to: Point;
}

/** From a line's emitter to its end: door axes, metres. */
export function vectorOf({ from, to }: BeamLine): Point & { readonly length_m: number } {
  const x = to.x - from.x;
  const y = to.y - from.y;
  const z = to.z - from.z;
  return { x, y, z, length_m: Math.sqrt(x * x + y * y + z * z) };
}

/** Where a walker's own axes lie in the room: w = forward along the walk, l = to the walker's right, z up. */
export interface Frame {
  /** Origin on the floor, metres. */
  readonly x: number;
  readonly y: number;
  /** cos and sin of the heading: 0 walks along +y, π along −y; turning right is positive. */
  readonly cos: number;
  readonly sin: number;
}

/** Exact for the two headings nearly everybody has, so that walking back is the mirror image to the last bit. */
export function frameAt(x: number, y: number, heading: number): Frame {
  if (heading === 0) return { x, y, cos: 1, sin: 0 };
  return { x, y, cos: cos(heading), sin: sin(heading) };
}

/** A frame moved along its own way. */
export function moved(frame: Frame, path_m: number): Frame {
  return { x: frame.x + path_m * frame.sin, y: frame.y + path_m * frame.cos, cos: frame.cos, sin: frame.sin };
}

/** A frame turned half round on its origin, to the last bit. */
export function turnedRound({ x, y, cos, sin }: Frame): Frame {
  return { x, y, cos: -cos, sin: -sin };
}

/**
 * A beam line flattened along its own direction: the distance of a point from the line is the distance of its
 * (u, v) from the origin. A capsule flattens to a segment with the same radius, so capsule against beam is always
 * point against segment in a plane, whatever the tilt.
 */
export interface FlatBeam {
  readonly ul: number;
  readonly uw: number;
  readonly uz: number;
  readonly u0: number;
  readonly vl: number;
  readonly vz: number;
  readonly v0: number;
}

/**
 * Flattens a line for a walker.
 *
 * @param unit length of one model unit in metres; results are in model units
 * @throws {RangeError} when the line runs along the walk, or nearly: v would have no meaning
 */
export function flatten(line: BeamLine, frame: Frame, unit: number): FlatBeam {
  const p = toFrame(line.from, frame);
  const q = toFrame(line.to, frame);
  const dl = q.l - p.l;
  const dw = q.w - p.w;
  const dz = q.z - p.z;
  const length = Math.sqrt(dl * dl + dw * dw + dz * dz);
  const el = dl / length;
  const ew = dw / length;
  const ez = dz / length;
  // u: the walk's direction with its part along the beam taken out. v completes the right angle, upwards; being square to
  // the beam and to u it is square to the walk, too: it has no forward part.
  const n = Math.sqrt(1 - ew * ew);
  if (!(n > 0.1)) throw new RangeError('flatten: a beam must run across the opening, not along the walk');
  const ul = (-ew * el) / n;
  const uw = (1 - ew * ew) / n;
  const uz = (-ew * ez) / n;
  let vl = ew * uz - ez * uw;
  let vz = el * uw - ew * ul;
  if (vz < 0) {
    vl = -vl;
    vz = -vz;
  }
  const u0 = -(ul * p.l + uw * p.w + uz * p.z) / unit;
  const v0 = -(vl * p.l + vz * p.z) / unit;
  // `+ 0` turns a negative zero into a plain one: level beams compare with it.
  return { ul: ul + 0, uw, uz: uz + 0, u0, vl: vl + 0, vz, v0 };
}

/** Room to walker: w forward, l to the right. */
function toFrame(point: Point, frame: Frame): { l: number; w: number; z: number } {
  const dx = point.x - frame.x;
  const dy = point.y - frame.y;
  return { l: dx * frame.cos - dy * frame.sin, w: dy * frame.cos + dx * frame.sin, z: point.z };
}

/** Walker to room, metres. */
export function toRoom(l: number, w: number, frame: Frame): { x: number; y: number } {
  return { x: frame.x + l * frame.cos + w * frame.sin, y: frame.y + w * frame.cos - l * frame.sin };
}
