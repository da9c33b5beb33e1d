/** How many a week are of one cause, where only the first replicates were looked at closely. */
import { tQuantile } from '../engine/distribution-functions.js';
import { FEW_REPLICATES, bare, ratioEstimate, sum } from './estimates.js';
import { LEVEL, jackknifeError } from './jackknife.js';
import type { Estimate } from './metrics-schema.js';

/**
 * Those not looked at are taken to have the same causes: the share of the cause among what was looked at, times what went
 * wrong a week in all replicates. Of such a product the squared error is the sum of each one's, times the other's square
 * (first order, the two taken as independent), and Student's t has Satterthwaite's degrees of freedom. Source: F. E.
 * Satterthwaite, "An approximate distribution of estimates of variance components", Biometrics Bulletin 2, 1946, 110–114.
 *
 * @param events of the cause, in each replicate looked at @param seen what went wrong there
 * @param wrong what went wrong in each replicate of the run, those looked at first @param weeks how long each was
 */
export function countedAlike(
  events: readonly number[],
  seen: readonly number[],
  wrong: readonly number[],
  weeks: readonly number[],
): Estimate {
  const n = wrong.length;
  const looked = events.length;
  if (looked === n) return ratioEstimate(events, weeks, { n, nothing: 'no time' });
  const share = sum(events) / sum(seen);
  const rate = sum(wrong) / sum(weeks);
  const value = share * rate;
  if (looked < 2 || seen.some((one) => one === sum(seen))) return bare(value, n, FEW_REPLICATES);
  const ofShare = rate * jackknifeError(leftOut(events, seen));
  const ofRate = share * jackknifeError(leftOut(wrong, weeks));
  const squares = ofShare * ofShare + ofRate * ofRate;
  if (squares === 0) return bare(value, n, 'every replicate gave the same value');
  const freedom = (squares * squares) / (fourth(ofShare) / (looked - 1) + fourth(ofRate) / (n - 1));
  const half = tQuantile((1 + LEVEL) / 2, freedom) * Math.sqrt(squares);
  return { value, low: Math.max(0, value - half), high: value + half, method: 'jackknife-t', n };
}

/** The ratio with each replicate left out. */
function leftOut(events: readonly number[], exposures: readonly number[]): number[] {
  const all = sum(events);
  const exposure = sum(exposures);
  return events.map((one, i) => (all - one) / (exposure - exposures[i]!));
}

function fourth(x: number): number {
  return x * x * (x * x);
}
