/** Where anything can matter to an ultrasonic ranger. */
import type { Hearing } from './hearing.js';
import { loudestArea } from './target.js';
import type { WallEcho } from './walls.js';

/**
 * Radii of what walks, in steps; the last is half the greatest diameter of a test rod. A thick body is heard from
 * further aside, but then reaches further in as well.
 */
const RADII_M = [0, 0.02, 0.04, 0.06, 0.08, 0.1, 0.13, 0.16, 0.2, 0.25, 0.35, 0.5] as const;
/** Directions are taken in groups of so many cells of the beam's table. */
const GROUP = 4;

/** Where a body may be heard: taken at every angle for each thickness of body, in the thinnest clothes. */
export interface Audible {
  /** A capsule altogether below the least or above the greatest x, y or z is not heard; door axes, metres. */
  readonly lowX: number;
  readonly highX: number;
  readonly lowY: number;
  readonly highY: number;
  readonly lowZ: number;
  readonly highZ: number;
  /** Greatest distance of a surface from the axis at which its diffuse echo may be heard, metres. */
  readonly aside_m: number;
}

/** @param limit_m nothing further away is heard */
export function audibleOf(hearing: Hearing, limit_m: number): Audible {
  const { beam, diffuse, x, y, z } = hearing;
  const axis = [hearing.dx, hearing.dy, hearing.dz];
  const low: [number, number, number] = [0, 0, 0];
  const high: [number, number, number] = [0, 0, 0];
  let aside = 0;
  for (let i = 0; i < beam.cells; i += GROUP) {
    const end = Math.min(i + GROUP, beam.cells);
    let strongest = 0;
    for (let j = i; j <= end; j++) strongest = Math.max(strongest, beam.node(j));
    const both = strongest * strongest * hearing.clothing.at(0);
    const sin = Math.sqrt(end / beam.cells);
    const nearCos = Math.sqrt(1 - i / beam.cells);
    const farCos = Math.sqrt(1 - end / beam.cells);
    const thickest = RADII_M[RADII_M.length - 1]!;
    const faint = reachAt(hearing, both * diffuse, thickest, limit_m);
    aside = Math.max(aside, faint * sin);
    let thinner = 0;
    for (const radius of RADII_M) {
      const reach = reachAt(hearing, both, radius, limit_m);
      for (let k = 0; k < 3; k++) {
        const d = axis[k]!;
        const square = Math.sqrt(Math.max(0, 1 - d * d)) * sin;
        // Greatest part along this axis of any direction within the group, one way and the other.
        const up = Math.min(1, d * (d > 0 ? nearCos : farCos) + square);
        const down = Math.min(1, square - d * (d > 0 ? farCos : nearCos));
        // The mirror's point at `reach` belongs to a ball of at least the thinner radius, which reaches further in.
        high[k] = Math.max(high[k]!, reach * up - thinner * (1 - up), faint * up);
        low[k] = Math.min(low[k]!, thinner * (1 - down) - reach * down, -faint * down);
      }
      thinner = radius;
    }
  }
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

/** Furthest a body up to a radius is heard at `beam` both ways: at most `limit_m`, 0 if not even at the blind zone's end. */
function reachAt(hearing: Hearing, beam: number, radius: number, limit_m: number): number {
  const heard = (r: number): boolean =>
    hearing.gain * hearing.air.at(2 * r) * beam * loudestArea(radius, r) >= r * r * r * r;
  if (!heard(hearing.blind_m)) return 0;
  if (heard(limit_m)) return limit_m;
  let [low, high] = [hearing.blind_m, limit_m];
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    if (heard(middle)) low = middle;
    else high = middle;
  }
  return high;
}
