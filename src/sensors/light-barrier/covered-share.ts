/**
 * How much of a beam a body covers: the area of a disc behind a strip.
 *
 * The beam is a disc of the effective diameter, a limb a strip as wide as itself. A barrier is broken when the covered
 * share of the disc's area reaches its limit; several limbs are judged singly.
 */
import { PI, atan2 } from '../../engine/arithmetic.js';

/**
 * Share of a disc's area on the far side of a straight edge: the circular segment of handbooks (Bronshtein &
 * Semendyayev, mensuration): ½·R²·(α − sin α) with half the angle at the centre from the edge's distance.
 *
 * @param x distance of the edge from the centre over the radius, positive when the centre is still uncovered; −1 … 1
 */
export function segmentShare(x: number): number {
  if (x >= 1) return 0;
  if (x <= -1) return 1;
  const y = Math.sqrt((1 - x) * (1 + x));
  // Half the central angle is acos x = atan2(y, x).
  return (atan2(y, x) - x * y) / PI;
}

/** Share of a disc of `radius` behind a strip of half-width `half` whose middle is `distance` from the disc's. Any one unit. */
export function stripShare(distance: number, half: number, radius: number): number {
  return segmentShare((distance - half) / radius) - segmentShare((distance + half) / radius);
}

/**
 * The clearance at which a limb breaks the beam: how far past touching, edge to beam axis, its axis may be (positive:
 * it breaks before its edge reaches the middle of the beam; 0 at half). −Infinity for a limb too thin to ever cover
 * the share.
 *
 * @param limb radius of the limb @param radius radius of the beam, the same unit @param share 0 < share < 1
 */
export function clearanceAt(limb: number, radius: number, share: number): number {
  if (stripShare(0, limb, radius) < share) return -Infinity;
  // Moving away from the middle the covered share only falls.
  let inside = 0;
  let outside = limb + radius;
  for (let i = 0; i < 60; i++) {
    const middle = (inside + outside) / 2;
    if (stripShare(middle, limb, radius) >= share) inside = middle;
    else outside = middle;
  }
  return inside - limb;
}

/** {@link clearanceAt} for one beam, remembering the value all limbs wider than the beam share. */
export function clearanceOf(diameter_m: number, share: number): (limb_m: number) => number {
  const radius = diameter_m / 2;
  const wide = clearanceAt(diameter_m, radius, share);
  return (limb_m) => (limb_m >= diameter_m ? wide : clearanceAt(limb_m, radius, share));
}
