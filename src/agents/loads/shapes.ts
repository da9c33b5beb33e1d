/**
 * Things made of capsules: solid blocks, tubes and wheels, in metres of the place they are put together in.
 *
 * A place says which moving part carries them and how metres become model units: `w` forward and `l` to the right of
 * the trunk axis, `z` from the floor (or from where the part's own zero is).
 */
import type { Limb } from '../../geometry/limbs.js';
import { limbOf } from '../../geometry/limbs.js';

export interface Place {
  readonly part: number;
  readonly unit_m: number;
  /** Height of the part's own zero above the floor, metres. */
  readonly zero_m: number;
}

/** One capsule between two points, metres. */
export function tube(
  { part, unit_m, zero_m }: Place,
  [al, aw, az]: readonly [number, number, number],
  [bl, bw, bz]: readonly [number, number, number],
  radius_m: number,
  shadowed = false,
): Limb {
  const z = (height: number): number => (height - zero_m) / unit_m;
  return limbOf(part, al / unit_m, aw / unit_m, z(az), bl / unit_m, bw / unit_m, z(bz), radius_m / unit_m, shadowed);
}

/** The same on the right and on the left: a beam straight across sees one for both. */
export function tubes(
  place: Place,
  l: number,
  [aw, az]: readonly [number, number],
  [bw, bz]: readonly [number, number],
  radius_m: number,
): Limb[] {
  return [l, -l].map((side, i) => tube(place, [side, aw, az], [side, bw, bz], radius_m, i === 1));
}

/** Capsules of one radius lie no further apart in height than this share of it: between them dents stay below 0.2 of it. */
const APART = 1.2;
/** Widest gap between neighbours side by side, metres: seen from above a block is solid but for grooves this wide. */
const GROOVE_M = 0.04;

/**
 * A solid block of capsules along the walk, rounded fore and aft. Seen straight across it has no hole.
 *
 * @param l middle of the block across
 */
export function block(
  place: Place,
  l: number,
  across_m: number,
  w: readonly [number, number],
  z: readonly [number, number],
): Limb[] {
  const radius = Math.min(across_m, w[1] - w[0], z[1] - z[0]) / 2;
  const limbs: Limb[] = [];
  const columns = spread(across_m - 2 * radius, 2 * radius + GROOVE_M);
  for (const height of spread(z[1] - z[0] - 2 * radius, APART * radius)) {
    columns.forEach((column, i) => {
      const at = l - across_m / 2 + radius + column;
      const level = z[0] + radius + height;
      limbs.push(tube(place, [at, w[0] + radius, level], [at, w[1] - radius, level], radius, i > 0));
    });
  }
  return limbs;
}

/** Places from 0 to `length`, evenly, at most `apart` from each other; one in the middle where there is no length. */
function spread(length: number, apart: number): number[] {
  const cells = Math.ceil(length / apart - 1e-9);
  if (cells <= 0) return [length / 2];
  return Array.from({ length: cells + 1 }, (_, i) => (i * length) / cells);
}

/** Small wheels, a pair: balls that touch the floor. Their inner sides are fatter than a wheel's. */
export function wheels(place: Place, across_m: number, w: number, radius_m: number): Limb[] {
  return tubes(place, across_m / 2 - radius_m, [w, radius_m], [w, radius_m], radius_m);
}

const RIM_SIDES = 8;
/** cos and sin of 0°, 45°, …: a square root is the same everywhere. */
const DIAGONAL = Math.sqrt(0.5);
const CORNERS: readonly (readonly [number, number])[] = [
  [1, 0],
  [DIAGONAL, DIAGONAL],
  [0, 1],
  [-DIAGONAL, DIAGONAL],
  [-1, 0],
  [-DIAGONAL, -DIAGONAL],
  [0, -1],
  [DIAGONAL, -DIAGONAL],
];

/** Big wheels, a pair: an eight-sided rim with four spokes. They slide along rather than turn: spokes stay where they are. */
export function rims(place: Place, across_m: number, w: number, radius_m: number, tube_m: number): Limb[] {
  const rim = radius_m - tube_m;
  const corner = (i: number): readonly [number, number] => {
    const [c, s] = CORNERS[i % RIM_SIDES] as readonly [number, number];
    return [w + rim * c, radius_m + rim * s];
  };
  const limbs: Limb[] = [];
  const l = across_m / 2 - tube_m;
  for (let i = 0; i < RIM_SIDES; i++) limbs.push(...tubes(place, l, corner(i), corner(i + 1), tube_m));
  for (const i of [0, 2]) limbs.push(...tubes(place, l, corner(i), corner(i + 4), tube_m));
  return limbs;
}
