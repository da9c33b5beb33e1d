/**
 * Wilson's score interval, for trials that are independent: single test rods, never passages of one day.
 *
 * Source: R. G. Newcombe, "Two-sided confidence intervals for the single proportion: comparison of seven methods",
 * Statistics in Medicine 17, 1998, 857–872, method 3.
 */
import { normalQuantile } from '../engine/distribution-functions.js';
import { LEVEL } from './jackknife.js';
import type { Estimate } from './metrics-schema.js';

/**
 * Share of `trials` that were `events`, times `scale`, with its interval.
 *
 * @param level confidence, between 0 and 1
 * @example wilsonEstimate(81, 263) // low 0.2553, high 0.3662
 */
export function wilsonEstimate(events: number, trials: number, scale = 1, level = LEVEL): Estimate {
  if (trials === 0) return { value: null, low: null, high: null, method: 'none', n: 0, reason: 'no trials' };
  const z = normalQuantile((1 + level) / 2, 0, 1);
  const middle = events + (z * z) / 2;
  const half = z * Math.sqrt((events * (trials - events)) / trials + (z * z) / 4);
  const all = trials + z * z;
  return {
    value: (scale * events) / trials,
    // The ends are 0 and 1 exactly where nothing, or everything, was an event.
    low: events === 0 ? 0 : (scale * (middle - half)) / all,
    high: events === trials ? scale : (scale * (middle + half)) / all,
    method: 'wilson',
    n: trials,
  };
}
