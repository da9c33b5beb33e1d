/** Inside one cell: both ends of a capsule move in straight lines, and the threshold is crossed, or may be. */

/** Width at which root refinement stops, in cells: the longest cell, of somebody standing, lasts 125 ms, so this is at most 5 µs. */
const ROOT_WIDTH = 4e-5;
/** Widest part of a cell that is not halved any further in search of a pair of crossings. */
const SMALLEST_HALF = 1 / 64;

/**
 * The cell looked into: the ends at its beginning (au, av, bu, bv), how far they move (the same four), the threshold.
 * One shared array instead of nine fields: nothing is boxed, nothing is allocated.
 */
export const CELL = new Float64Array(9);

/** Distance to the threshold at fraction t of the cell. */
function within(t: number): number {
  return (
    fromOrigin(CELL[0]! + CELL[4]! * t, CELL[1]! + CELL[5]! * t, CELL[2]! + CELL[6]! * t, CELL[3]! + CELL[7]! * t) -
    CELL[8]!
  );
}

/**
 * The crossing between fractions t0 and t1 of the cell, where g0 and g1 differ in sign: Illinois' false position,
 * until the bracket, or what the bracket's slope makes of the remaining distance, is narrower than {@link ROOT_WIDTH}
 * of time. It is time that is held to the width, not distance: in a graze a little distance is a long time.
 */
export function rootInCell(t0: number, g0: number, t1: number, g1: number): number {
  let side = 0;
  for (let i = 0; i < 100; i++) {
    const width = t1 - t0;
    const fall = g0 - g1;
    // Every eighth look halves the bracket, whatever false position says: no curve makes it crawl.
    const t = (i & 7) === 7 ? t0 + width / 2 : t0 + (width * g0) / fall;
    const g = within(t);
    if (width <= ROOT_WIDTH || (g < 0 ? -g : g) * width <= ROOT_WIDTH * (fall < 0 ? -fall : fall)) return t;
    if (g < 0 === g1 < 0) {
      t1 = t;
      g1 = g;
      if (side === 1) g0 /= 2;
      side = 1;
    } else {
      t0 = t;
      g0 = g;
      if (side === -1) g1 /= 2;
      side = -1;
    }
  }
  return (t0 + t1) / 2;
}

/**
 * A fraction of the cell on the other side of the threshold than both its ends, or −1: halves wherever the movement
 * would allow one.
 */
export function dipInCell(t0: number, g0: number, t1: number, g1: number, movement: number): number {
  if ((g0 < 0 ? -g0 : g0) + (g1 < 0 ? -g1 : g1) >= movement) return -1;
  const t = (t0 + t1) / 2;
  const g = within(t);
  if (g < 0 !== g0 < 0) return t;
  if (t1 - t0 <= SMALLEST_HALF) return -1;
  const left = dipInCell(t0, g0, t, g, movement / 2);
  return left >= 0 ? left : dipInCell(t, g, t1, g1, movement / 2);
}

/** Distance of the origin from the segment (au, av)–(bu, bv). */
export function fromOrigin(au: number, av: number, bu: number, bv: number): number {
  const du = bu - au;
  const dv = bv - av;
  const dot = -(au * du + av * dv);
  if (dot <= 0) return Math.sqrt(au * au + av * av);
  const length2 = du * du + dv * dv;
  if (dot >= length2) return Math.sqrt(bu * bu + bv * bv);
  const cross = au * dv - av * du;
  return (cross < 0 ? -cross : cross) / Math.sqrt(length2);
}
