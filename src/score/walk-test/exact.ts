/**
 * Exact statements about a share of independent trials: tails of the binomial distribution, and the interval they make.
 *
 * Source: C. J. Clopper, E. S. Pearson, "The use of confidence or fiducial limits illustrated in the case of the
 * binomial", Biometrika 26, 1934, 404–413; its ends are quantiles of a beta distribution.
 */
import { betaQuantile, binomialCdf } from '../../engine/distribution-functions.js';

/** Probability of `events` or fewer in `trials`, each an event with probability `share`. */
export function atMost(events: number, trials: number, share: number): number {
  if (events < 0) return 0;
  return events >= trials ? 1 : binomialCdf(events, trials, share);
}

/** Probability of `events` or more. The small tail is summed itself: 1 minus nearly 1 would lose its digits. */
export function atLeast(events: number, trials: number, share: number): number {
  return atMost(trials - events, trials, 1 - share);
}

export interface ShareInterval {
  readonly low: number;
  readonly high: number;
}

/**
 * Clopper and Pearson's interval for a share, between 0 and 1. Without trials it is all there is.
 *
 * @example clopperPearson(81, 263, 0.95) // low 0.2527, high 0.3676
 */
export function clopperPearson(events: number, trials: number, level: number): ShareInterval {
  const tail = (1 - level) / 2;
  return {
    low: events === 0 ? 0 : betaQuantile(tail, events, trials - events + 1),
    high: events === trials ? 1 : betaQuantile(1 - tail, events + 1, trials - events),
  };
}
