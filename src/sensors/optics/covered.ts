/**
 * How much of a round spot of light a limb covers: the area of a disc behind a straight edge or a strip, from a table,
 * for rangers ask some thousand times a second.
 */
import { segmentShare } from '../light-barrier/covered-share.js';

/** Cells from one rim of the disc to the other. Straight lines between nodes are off by less than 1e-4. */
const CELLS = 1024;
const SHARES = Float64Array.from({ length: CELLS + 1 }, (_, i) => segmentShare((2 * i) / CELLS - 1));

/** Share of a disc behind an edge at `x` radii from its centre, positive when the centre is uncovered. */
export function behindEdge(x: number): number {
  if (x >= 1) return 0;
  if (x <= -1) return 1;
  const at = ((x + 1) * CELLS) / 2;
  const cell = Math.floor(at);
  const below = SHARES[cell]!;
  return below + (SHARES[cell + 1]! - below) * (at - cell);
}

/** Share of a disc of `radius` behind a strip of half-width `half` whose middle is `off` from the disc's; any one unit. */
export function behindStrip(off: number, half: number, radius: number): number {
  if (half >= off + radius) return 1;
  return behindEdge((off - half) / radius) - behindEdge((off + half) / radius);
}
