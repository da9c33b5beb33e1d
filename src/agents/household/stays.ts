/** How long guests stay, by the law of their stay: one draw, one time. */
import { exp } from '../../engine/arithmetic.js';
import { exponential, lognormal, uniform } from '../../engine/distributions.js';
import { MINUTE_US } from '../../engine/time.js';
import { STAY_SPREAD } from '../figures/household.js';
import type { Visitors } from './schema.js';

/** Whole microseconds; the mean of the law is `mean_min`, whichever it is. */
export function stayOf(law: Visitors['stay_law'], mean_min: number, u: number): number {
  return Math.round(stayMinutes(law, mean_min, u) * MINUTE_US);
}

function stayMinutes(law: Visitors['stay_law'], mean_min: number, u: number): number {
  if (law === 'fixed') return mean_min;
  if (law === 'even') return uniform(u, 0, 2 * mean_min);
  if (law === 'exponential') return exponential(u, mean_min);
  const { sigma } = STAY_SPREAD.value;
  // The mean of a log-normal lies above its median by exp(σ²/2).
  return lognormal(u, mean_min / exp((sigma * sigma) / 2), sigma);
}
