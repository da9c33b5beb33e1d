/**
 * From visits that were watched to a model of a doorway: how often each way is gone, how long its stages last, what the
 * beams show in each. A visit's time from its first broken beam to its last is cut into three stages of equal length.
 *
 * Shares are Jeffreys' posterior means, (k + ½)/(n + ½m) of m cases (H. Jeffreys, Theory of Probability, 1961; from
 * memory): nothing is ever held impossible.
 */
import { EMPTY, STAGES, STATES, WAYS, stateOf } from './states.js';
import type { MarkovModel } from './forward.js';

export interface WatchedVisit {
  /** Index into {@link WAYS}. */
  readonly way: number;
  /** What the beams showed at every tick from the first broken beam to the last, as masks. */
  readonly masks: readonly number[];
}

export interface Learnt extends MarkovModel {
  /** Length of a tick, microseconds. */
  readonly tick_us: number;
}

/**
 * @param idle ticks with nobody there, by what the beams showed then
 * @param beams how many
 */
export function learn(
  visits: readonly WatchedVisit[],
  idle: readonly number[],
  tick_us: number,
  beams: number,
): Learnt {
  const seen = 1 << beams;
  const emission = Array.from({ length: STATES }, () => Array.from({ length: seen }, () => 0));
  idle.forEach((ticks, mask) => (emission[EMPTY]![mask]! += ticks));
  const starts = WAYS.map(() => 0);
  const ticks = WAYS.map(() => 0);
  for (const { way, masks } of visits) {
    if (masks.length === 0) continue;
    starts[way]!++;
    ticks[way]! += masks.length;
    masks.forEach((mask, n) => {
      const stage = Math.min(STAGES.length - 1, Math.floor((n * STAGES.length) / masks.length));
      emission[stateOf(way, stage)]![mask]!++;
    });
  }
  const transition = Array.from({ length: STATES }, () => Array.from({ length: STATES }, () => 0));
  const idleTicks = idle.reduce((sum, one) => sum + one, 0);
  const begun = WAYS.map((_, way) => (starts[way]! + 0.5) / (idleTicks + 0.5 * (WAYS.length + 1)));
  begun.forEach((share, way) => (transition[EMPTY]![stateOf(way, 0)] = share));
  transition[EMPTY]![EMPTY] = 1 - begun.reduce((sum, share) => sum + share, 0);
  WAYS.forEach((_, way) => {
    // Where nobody was watched on this way a stage is taken to last a fifth of a second.
    const length = starts[way]! > 0 ? ticks[way]! / starts[way]! / STAGES.length : 200_000 / tick_us;
    const leaves = 1 / Math.max(1.5, length);
    STAGES.forEach((_stage, stage) => {
      const state = stateOf(way, stage);
      transition[state]![state] = 1 - leaves;
      transition[state]![stage + 1 < STAGES.length ? stateOf(way, stage + 1) : EMPTY] = leaves;
    });
  });
  return { tick_us, transition, emission: emission.map((counts) => shares(counts)) };
}

function shares(counts: readonly number[]): number[] {
  const all = counts.reduce((sum, one) => sum + one, 0) + counts.length / 2;
  return counts.map((one) => (one + 0.5) / all);
}
