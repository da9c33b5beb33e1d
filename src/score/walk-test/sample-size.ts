/** How many walks a claim needs, and what fewer can still tell. Exact: tails are summed, nothing is taken for normal. */
import { type Claim, POWER, criticalEvents } from './claim.js';
import { atLeast } from './exact.js';

/**
 * Fewest walks, an even number so that half go each way, with {@link POWER} to refute at `beyond`; null if more than
 * `most`. About 1 ms for 1000.
 */
export function walksNeeded(claim: Claim, error: number, most: number): number | null {
  let critical = 0;
  for (let walks = 2; walks <= most; walks += 2) {
    // With more walks it never takes fewer events.
    critical = criticalEvents(claim, walks, error, critical);
    if (critical <= walks && atLeast(critical, walks, claim.beyond) >= POWER) return walks;
  }
  return null;
}

/** The smallest share that so many walks tell from the claim with {@link POWER}, rounded up to a thousandth; 1 where none. */
export function shareFound(claim: Claim, walks: number, error: number): number {
  const critical = criticalEvents(claim, walks, error);
  if (critical > walks) return 1;
  for (let thousandths = Math.ceil(1000 * claim.high); thousandths < 1000; thousandths++)
    if (atLeast(critical, walks, thousandths / 1000) >= POWER) return thousandths / 1000;
  return 1;
}
