/**
 * How much of a round spot of light something covers: the area of the unit disc behind a straight edge, a strip or a box,
 * from one table, for rangers ask some thousand times a second.
 */
import { PI } from '../../engine/arithmetic.js';
import { segmentShare } from '../light-barrier/covered-share.js';

/** Cells from one rim of the disc to the other. Straight lines between nodes are off by less than 1e-4. */
const CELLS = 1024;
const SHARES = Float64Array.from({ length: CELLS + 1 }, (_, i) => segmentShare((2 * i) / CELLS - 1));

/** Share of the disc behind an edge at `x` from its centre, positive when the centre is uncovered. */
export function behindEdge(x: number): number {
  // Nearer to the rim than a number has room for is on it.
  if (x >= 1 - 1e-12) return 0;
  if (x <= -1) return 1;
  const at = ((x + 1) * CELLS) / 2;
  const cell = Math.floor(at);
  const below = SHARES[cell]!;
  return below + (SHARES[cell + 1]! - below) * (at - cell);
}

/**
 * Share of the disc in a box.
 *
 * @param across0 to `across1`: the box one way, from the disc's centre @param along0 to `along1`: the other way
 */
export function inBox(across0: number, across1: number, along0: number, along1: number): number {
  if (along0 <= -1 && along1 >= 1) return behindEdge(across0) - behindEdge(across1);
  if (across0 <= -1 && across1 >= 1) return behindEdge(along0) - behindEdge(along1);
  return (
    beyondCorner(across0, along0) -
    beyondCorner(across1, along0) -
    beyondCorner(across0, along1) +
    beyondCorner(across1, along1)
  );
}

/** Share of the disc where x > a and y > b. */
function beyondCorner(a: number, b: number): number {
  if (a >= 1 || b >= 1) return 0;
  if (a <= -1) return behindEdge(b);
  if (b <= -1) return behindEdge(a);
  if (a * a + b * b >= 1) {
    // The corner is off the disc: one edge hides the other, or they cut off pieces that don't meet.
    if (a > 0) return b > 0 ? 0 : behindEdge(a);
    return b > 0 ? behindEdge(b) : behindEdge(a) + behindEdge(b) - 1;
  }
  // Where the edge y = b leaves the disc; up to there the area under the rim, less the box below the edge.
  const rim = Math.sqrt((1 - b) * (1 + b));
  const beyond = behindEdge(rim);
  const above = (behindEdge(a) - beyond) / 2 - (b * (rim - a)) / PI;
  return b < 0 ? above + beyond : above;
}
