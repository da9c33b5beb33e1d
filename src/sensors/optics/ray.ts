/** A ray of light against a limb: where it meets the surface. */

/**
 * Distance from a ray's origin at which it enters a capsule: Infinity when it misses, below 0 from inside.
 *
 * The side is a quadratic in the distance; where it is met beyond an end of the limb, that end's ball is asked.
 *
 * @param dx the ray's direction with `dy`, `dz`: a unit vector @param ax one end of the limb, from the ray's origin
 * @param bx the other end @param radius metres, like all lengths
 */
export function entryOf(
  dx: number,
  dy: number,
  dz: number,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  radius: number,
): number {
  const ex = bx - ax;
  const ey = by - ay;
  const ez = bz - az;
  const e2 = ex * ex + ey * ey + ez * ez;
  const de = dx * ex + dy * ey + dz * ez;
  const da = dx * ax + dy * ay + dz * az;
  const ae = ax * ex + ay * ey + az * ez;
  const skew = e2 - de * de;
  let second: boolean;
  // A limb along the ray is met at an end; one shorter than a micrometre is a ball.
  if (skew > 1e-12 * e2 && e2 > 1e-12) {
    const b = ae * de - e2 * da;
    const a2 = ax * ax + ay * ay + az * az;
    const root = b * b - skew * (e2 * a2 - ae * ae - radius * radius * e2);
    if (root < 0) return Infinity;
    const side = (-b - Math.sqrt(root)) / skew;
    // How far along the limb, times its length.
    const along = side * de - ae;
    if (along > 0 && along < e2) return side;
    second = along >= e2;
  } else second = de < 0;
  if (!second) return ballAt(da, ax * ax + ay * ay + az * az, radius);
  return ballAt(dx * bx + dy * by + dz * bz, bx * bx + by * by + bz * bz, radius);
}

/** @param along how far along the ray its middle is @param away2 square of its distance from the ray's origin */
function ballAt(along: number, away2: number, radius: number): number {
  const root = along * along - away2 + radius * radius;
  return root < 0 ? Infinity : along - Math.sqrt(root);
}
