/** The outline of points in a plane: what a rubber band around them would show. */

export type Flat = readonly [number, number];

/** Points per metre: coordinates are whole tenths of a millimetre while compared, so that no rounding bends a line. */
const GRID = 10_000;

/** Convex hull by Andrew's monotone chain, corners only, counter-clockwise; metres, to a tenth of a millimetre. */
export function hull(points: readonly Flat[]): Flat[] {
  const whole = points.map(([a, b]): Flat => [Math.round(a * GRID), Math.round(b * GRID)]);
  const sorted = whole.sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  return [...chain(sorted), ...chain([...sorted].reverse())].map(([a, b]): Flat => [a / GRID, b / GRID]);
}

/** One side of the hull, without its last point, which begins the other side. */
function chain(sorted: readonly Flat[]): Flat[] {
  const side: Flat[] = [];
  for (const p of sorted) {
    for (;;) {
      const [a, b] = [side.at(-2), side.at(-1)];
      if (!a || !b || (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
      side.pop();
    }
    side.push(p);
  }
  return side.slice(0, -1);
}
