/** Shared pieces of step results, frozen, so that ordinary steps allocate next to nothing. */
import type { Direction, LogicStep } from './logic.js';

export const NONE: readonly Direction[] = Object.freeze([]);
export const FORWARD: readonly Direction[] = Object.freeze(['forward' as const]);
export const BACKWARD: readonly Direction[] = Object.freeze(['backward' as const]);

/** A step into a state that waits for nothing but a change: made once, given many times. */
export function restingStep<State>(state: State, tallies: readonly Direction[] = NONE): LogicStep<State> {
  return Object.freeze({ state, tallies, wake_us: undefined });
}

/** Whole microseconds of a time a user gave in milliseconds. */
export function microseconds(ms: number): number {
  return Math.round(ms * 1000);
}
