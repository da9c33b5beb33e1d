/** How much of a reading's noise breaks a beam: found by halving, for no ranger gives a formula. */

/** Rarer than this, no clock is long enough to meet it. */
const LEAST = 1e-15;

/**
 * Share of readings whose noise alone breaks the beam; 0 where it is next to none. Readings never fall as their uniform
 * grows, so it is the largest uniform that does, below a half.
 *
 * @param breaks whether a reading with this uniform breaks the beam; one in the middle doesn't
 * @param halvings each halves what is left open
 */
export function noiseTail(breaks: (u: number) => boolean, halvings: number): number {
  if (!breaks(LEAST)) return 0;
  let low = LEAST;
  let high = 0.5;
  for (let i = 0; i < halvings; i++) {
    // Tails are thin: halve the exponent first.
    const middle = low * 4 < high ? Math.sqrt(low * high) : (low + high) / 2;
    if (breaks(middle)) low = middle;
    else high = middle;
  }
  return low;
}
