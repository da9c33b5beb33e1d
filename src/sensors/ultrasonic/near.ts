/** Where anything can matter to an ultrasonic ranger. */
import type { Hearing } from './hearing.js';
import { loudestArea } from './target.js';
import type { WallEcho } from './walls.js';

/** The thickest thing that walks: half the greatest diameter of a test rod. */
const LARGEST_RADIUS_M = 0.5;

/** Where the surface of a body may be heard: taken at every angle for the loudest body in the thinnest clothes. */
export interface Audible {
  /** Least and greatest x, y and z of such places, door axes, metres. */
  readonly lowX: number;
  readonly highX: number;
  readonly lowY: number;
  readonly highY: number;
  readonly lowZ: number;
  readonly highZ: number;
  /** Greatest distance from the axis at which a diffuse echo may be heard, metres. */
  readonly aside_m: number;
}

/** @param limit_m nothing further away is heard */
export function audibleOf(hearing: Hearing, limit_m: number): Audible {
  const { beam } = hearing;
  const low: [number, number, number] = [0, 0, 0];
  const high: [number, number, number] = [0, 0, 0];
  let aside = 0;
  for (let i = 0; i < beam.cells; i++) {
    const strongest = Math.max(beam.node(i), beam.node(i + 1));
    const both = strongest * strongest * hearing.clothing.at(0);
    const distance = reachAt(hearing, both, limit_m);
    if (distance === 0) continue;
    const sin = Math.sqrt((i + 1) / beam.cells);
    const nearCos = Math.sqrt(1 - i / beam.cells);
    const farCos = Math.sqrt(1 - (i + 1) / beam.cells);
    [hearing.dx, hearing.dy, hearing.dz].forEach((d, axis) => {
      const square = Math.sqrt(Math.max(0, 1 - d * d)) * sin;
      // Greatest and least part along this axis of any direction at an angle within the cell.
      high[axis] = Math.max(high[axis]!, distance * (d * (d > 0 ? nearCos : farCos) + square));
      low[axis] = Math.min(low[axis]!, distance * (d * (d > 0 ? farCos : nearCos) - square));
    });
    aside = Math.max(aside, reachAt(hearing, both * hearing.diffuse, limit_m) * sin);
  }
  const { x, y, z } = hearing;
  // A hair more, for rounding.
  return {
    lowX: x + low[0] - 1e-6,
    highX: x + high[0] + 1e-6,
    lowY: y + low[1] - 1e-6,
    highY: y + high[1] + 1e-6,
    lowZ: z + low[2] - 1e-6,
    highZ: z + high[2] + 1e-6,
    aside_m: aside + 1e-6,
  };
}

/** From and to where along the walk a capsule's surface can be heard or stand in the way of a wall's echo. */
export function nearOf(
  hearing: Hearing,
  { lowY, highY }: Audible,
  walls: readonly WallEcho[],
): readonly [number, number] {
  const ends = walls.map(({ to }) => to.y);
  return [Math.min(lowY, hearing.y, ...ends), Math.max(highY, hearing.y, ...ends)];
}

/** The same for heights. */
export function heightsOf(
  hearing: Hearing,
  { lowZ, highZ }: Audible,
  walls: readonly WallEcho[],
): readonly [number, number] {
  const ends = walls.map(({ to }) => to.z);
  return [Math.min(lowZ, hearing.z, ...ends), Math.max(highZ, hearing.z, ...ends)];
}

/** Furthest the loudest body is heard at `beam` both ways: at most `limit_m`, 0 if not even at the blind zone's end. */
function reachAt(hearing: Hearing, beam: number, limit_m: number): number {
  const heard = (r: number): boolean =>
    hearing.gain * hearing.air.at(2 * r) * beam * loudestArea(LARGEST_RADIUS_M, r) >= r * r * r * r;
  if (!heard(hearing.blind_m)) return 0;
  if (heard(limit_m)) return limit_m;
  let [low, high] = [hearing.blind_m, limit_m];
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (heard(middle)) low = middle;
    else high = middle;
  }
  return high;
}
