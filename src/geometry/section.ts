/** Where a capsule would break beams that lie side by side: its section by the plane they lie in. */
import type { BeamLine, Point } from './beam-line.js';
import { flatten } from './beam-line.js';

/** A plane of parallel beams, seen along them: u along the walk from the door plane, v up from the plane. */
export type Plane = (point: Point) => { readonly u: number; readonly v: number };

/** The plane a beam lies in with its neighbours along the walk. The u of a beam in it is that of any of its points. */
export function planeOf({ from, to }: BeamLine): Plane {
  // Shifted so that it crosses the door plane half-way.
  const shift = (from.y + to.y) / 2;
  const line = { from: { ...from, y: from.y - shift }, to: { ...to, y: to.y - shift } };
  const beam = flatten(line, { x: 0, y: 0, cos: 1, sin: 0 }, 1);
  return ({ x, y, z }) => ({
    u: beam.ul * x + beam.uw * y + beam.uz * z + beam.u0,
    v: beam.vl * x + beam.vz * z + beam.v0,
  });
}

/**
 * From where to where along the walk a capsule is nearer than `reach` to the line v = 0; null where it isn't.
 * A beam at u in between is broken by it, one outside isn't.
 *
 * @param a one end of its axis, flattened @param b the other @param reach its radius, or what counts of it; metres
 */
export function sectionOf(
  a: ReturnType<Plane>,
  b: ReturnType<Plane>,
  reach: number,
): readonly [low: number, high: number] | null {
  if (!(reach > 0)) return null;
  let low = Infinity;
  let high = -Infinity;
  const take = (u: number): void => {
    if (u < low) low = u;
    if (u > high) high = u;
  };
  for (const { u, v } of [a, b]) {
    if (Math.abs(v) > reach) continue;
    const half = Math.sqrt(reach * reach - v * v);
    take(u - half);
    take(u + half);
  }
  const du = b.u - a.u;
  const dv = b.v - a.v;
  const length = Math.sqrt(du * du + dv * dv);
  if (length > 0) {
    // Both sides of the capsule, parallel to its axis.
    for (const side of [-1, 1]) {
      const ou = (-dv / length) * reach * side;
      const ov = (du / length) * reach * side;
      const v0 = a.v + ov;
      const v1 = b.v + ov;
      if (v0 * v1 > 0 || v0 === v1) continue;
      take(a.u + ou + (du * v0) / (v0 - v1));
    }
  }
  return low <= high ? [low, high] : null;
}
