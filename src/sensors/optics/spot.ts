/** A spot of light that goes out from a sensor: round, and growing evenly along its axis. */
import type { BeamLine } from '../../geometry/beam-line.js';
import { vectorOf } from '../../geometry/beam-line.js';

/**
 * Where a spot of light comes from and goes to: the thin one of a triangulation ranger, the wide cone of a time-of-flight
 * ranger. Its own axes are d along it, u and v across.
 */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Unit vector along the axis. */
  readonly dx: number;
  readonly dy: number;
  readonly dz: number;
  /** Unit vector across it, along the walk as far as can be: what rules out most limbs. */
  readonly ux: number;
  readonly uy: number;
  readonly uz: number;
  /** Unit vector across both. */
  readonly vx: number;
  readonly vy: number;
  readonly vz: number;
  /** Radius at the sensor, metres, and how much it grows per metre. */
  readonly radius_m: number;
  readonly growth: number;
  /** Distance of what is behind everybody, metres, and the radius there. */
  readonly behind_m: number;
  readonly widest_m: number;
}

/** @throws {RangeError} for an axis along the walk: it never leaves the opening sideways */
export function spotAlong(line: BeamLine, radius_m: number, growth: number): Spot {
  const { from } = line;
  const { x, y, z, length_m: behind_m } = vectorOf(line);
  const dx = x / behind_m;
  const dy = y / behind_m;
  const dz = z / behind_m;
  const uy = Math.sqrt(dx * dx + dz * dz);
  if (!(uy > 1e-6)) throw new RangeError('spotAlong: an axis must run across the opening, not along the walk');
  const ux = (-dx * dy) / uy;
  const uz = (-dz * dy) / uy;
  return {
    x: from.x,
    y: from.y,
    z: from.z,
    dx,
    dy,
    dz,
    ux,
    uy,
    uz,
    vx: dy * uz - dz * uy,
    vy: dz * ux - dx * uz,
    vz: dx * uy - dy * ux,
    radius_m,
    growth,
    behind_m,
    widest_m: radius_m + growth * behind_m,
  };
}

/** Slabs along the walk and in height that the spot lies in; metres, door axes. */
export function slabOf(spot: Spot): { along_m: readonly [number, number]; heights_m: readonly [number, number] } {
  const { behind_m, radius_m, widest_m } = spot;
  const slab = (at: number, d: number): readonly [number, number] => {
    const aside = Math.sqrt(Math.max(0, 1 - d * d));
    const end = at + d * behind_m;
    return [
      Math.min(at - aside * radius_m, end - aside * widest_m),
      Math.max(at + aside * radius_m, end + aside * widest_m),
    ];
  };
  return { along_m: slab(spot.y, spot.dy), heights_m: slab(spot.z, spot.dz) };
}
