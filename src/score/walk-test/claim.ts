/**
 * What a prediction claims of walks of one kind, in a form that walks can refute.
 *
 * A prediction is an interval of the share of wrong walks. Where most walks are predicted to be wrong, the claim is of
 * the right ones: of the rarer. Whoever is inside the interval is never refuted but by chance; and what walks must be
 * able to find out is a door that is worse by a stated measure.
 */
import { atLeast, atMost } from './exact.js';

/** Share of walks that are counted wrong, as predicted, with its 95 % interval; all between 0 and 1. */
export interface PredictedShare {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface Claim {
  /** Which walks the shares below are of: the rarer ones. */
  readonly of: 'wrong' | 'right';
  readonly low: number;
  readonly high: number;
  /** The share that walks have to tell from `high`. */
  readonly beyond: number;
}

/** The chance of calling a door that is as predicted different from it, all kinds of a test together. */
export const ERROR = 0.05;
/** How surely a door at a claim's `beyond` has to be found out. */
export const POWER = 0.8;

/** Twice the share; where that would be more than half of the others, half of the others. */
export function doubled(share: number): number {
  return Math.min(2 * share, (1 + share) / 2);
}

/** @param prediction `low` ≤ `high` */
export function claimOf({ low, high }: PredictedShare): Claim {
  const wrong = low + high <= 1;
  const ends = wrong ? { low, high } : { low: 1 - high, high: 1 - low };
  return { of: wrong ? 'wrong' : 'right', ...ends, beyond: doubled(ends.high) };
}

/** How many of `walks` are what the claim is of. */
export function eventsOf(claim: Claim, wrong: number, walks: number): number {
  return claim.of === 'wrong' ? wrong : walks - wrong;
}

/**
 * p-value of "the share is in the claim's interval": exact and two-sided. Twice the smaller tail, each tail at the end
 * of the interval that makes it largest; so it is right, or too large, for every share inside.
 */
export function pValue({ low, high }: Claim, events: number, walks: number): number {
  return Math.min(1, 2 * atLeast(events, walks, high), 2 * atMost(events, walks, low));
}

/** From this many events on so many walks refute the claim from above; more than `walks` where none can. */
export function criticalEvents(claim: Claim, walks: number, error: number, from = 0): number {
  let events = from;
  while (events <= walks && 2 * atLeast(events, walks, claim.high) > error) events++;
  return events;
}
