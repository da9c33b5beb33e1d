/**
 * First-broken order that ignores both beams for a while after each tally, so that a trailing leg or arm isn't a
 * second person. What is broken when the hold-off ends was not seen coming: it waits until both beams are clear.
 */
import { type Order, WAITING, firstBroken } from './first-broken.js';
import { CLEAR, maskOf } from './levels.js';
import type { Logic, LogicInput, LogicStep } from './logic.js';
import { NONE, microseconds } from './steps.js';

export interface Hold {
  readonly phase: 'hold-off';
  /** Levels at the last input. */
  readonly mask: number;
  /** End of the hold-off, microseconds. */
  readonly until_us: number;
}

/**
 * @param options.timeout_ms as in first-broken order
 * @param options.hold_off_ms how long both beams are ignored after a tally; a change at its very end is seen
 */
export function holdOff(options: {
  readonly name?: string;
  readonly timeout_ms: number;
  readonly hold_off_ms: number;
}): Logic<Order | Hold> {
  const hold_us = microseconds(options.hold_off_ms);
  const order = firstBroken({ timeout_ms: options.timeout_ms });

  function step(state: Order | Hold, input: LogicInput): LogicStep<Order | Hold> {
    if (state.phase !== 'hold-off') return holdAfterTally(order.step(state, input), input.time_us);
    if (input.time_us < state.until_us) {
      const held: Hold = { phase: 'hold-off', mask: maskOf(input.levels), until_us: state.until_us };
      return { state: held, tallies: NONE, wake_us: state.until_us };
    }
    const seen = state.mask === CLEAR ? order.initial() : WAITING;
    return holdAfterTally(order.step(seen, input), input.time_us);
  }

  function holdAfterTally(step: LogicStep<Order>, time_us: number): LogicStep<Order | Hold> {
    if (step.tallies.length === 0) return step;
    // Tallies come only when both beams are clear.
    const hold: Hold = { phase: 'hold-off', mask: CLEAR, until_us: time_us + hold_us };
    return { state: hold, tallies: step.tallies, wake_us: hold.until_us };
  }

  return {
    name: options.name ?? 'hold-off',
    latency_us: 0,
    beams: 2,
    defeated_by:
      'Whoever follows closer than the hold-off is missed, and as in first-broken order whoever breaks both beams and turns back is counted as through.',
    initial: () => order.initial(),
    step,
    label: ({ phase }) => phase,
  };
}
