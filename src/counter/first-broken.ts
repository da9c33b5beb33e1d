/**
 * First-broken order: the beam broken first gives the direction, and one tally comes when both have been broken and
 * both are clear again. The two need not be broken together, and whether the body then left at the other end is not
 * asked: this is the simplest counter there is, and the one to compare others with.
 *
 * Both broken at one instant from rest: no order was seen, so it waits until both are clear, without a tally.
 */
import { BOTH, CLEAR, ONLY_A, ONLY_B, maskOf } from './levels.js';
import type { Logic, LogicInput, LogicStep } from './logic.js';
import { BACKWARD, FORWARD, NONE, microseconds, restingStep } from './steps.js';

export type Phase =
  | 'rest'
  /** A was broken first; B not yet. */
  | 'A first'
  | 'B first'
  /** Both have been broken, A first; tally when both are clear. */
  | 'A then B'
  | 'B then A'
  /** No order known: nothing counts until both are clear. */
  | 'wait';

export interface Order {
  readonly phase: Phase;
  /** Levels after the last change. */
  readonly mask: number;
  /** When that was, microseconds. */
  readonly since_us: number;
}

const REST: Order = Object.freeze({ phase: 'rest', mask: CLEAR, since_us: 0 });
const AT_REST = restingStep(REST);
const WENT_FORWARD = restingStep(REST, FORWARD);
const WENT_BACKWARD = restingStep(REST, BACKWARD);
/** The wait has one state whatever is broken, for all it looks at is whether both are clear. */
export const WAITING: Order = Object.freeze({ phase: 'wait', mask: BOTH, since_us: 0 });
const WAIT = restingStep(WAITING);

/**
 * @param options.timeout_ms without a change for this long it gives up what it was waiting for: at rest if both beams
 *   are clear, otherwise it waits until they are. A change at that very instant comes too late.
 */
export function firstBroken(options: { readonly name?: string; readonly timeout_ms: number }): Logic<Order> {
  const timeout_us = microseconds(options.timeout_ms);

  function step(order: Order, input: LogicInput): LogicStep<Order> {
    const mask = maskOf(input.levels);
    let { phase } = order;
    if (phase !== 'rest' && phase !== 'wait') {
      if (input.time_us - order.since_us >= timeout_us) phase = order.mask === CLEAR ? 'rest' : 'wait';
      else if (mask === order.mask) return { state: order, tallies: NONE, wake_us: order.since_us + timeout_us };
    }
    const { time_us } = input;
    switch (phase) {
      case 'rest':
        if (mask === CLEAR) return AT_REST;
        return mask === BOTH ? WAIT : inPhase(mask === ONLY_A ? 'A first' : 'B first', mask, time_us);
      case 'wait':
        return mask === CLEAR ? AT_REST : WAIT;
      case 'A first':
        return inPhase(mask === CLEAR || mask === ONLY_A ? 'A first' : 'A then B', mask, time_us);
      case 'B first':
        return inPhase(mask === CLEAR || mask === ONLY_B ? 'B first' : 'B then A', mask, time_us);
      case 'A then B':
        return mask === CLEAR ? WENT_FORWARD : inPhase(phase, mask, time_us);
      case 'B then A':
        return mask === CLEAR ? WENT_BACKWARD : inPhase(phase, mask, time_us);
    }
  }

  function inPhase(phase: Phase, mask: number, time_us: number): LogicStep<Order> {
    return { state: { phase, mask, since_us: time_us }, tallies: NONE, wake_us: time_us + timeout_us };
  }

  return {
    name: options.name ?? 'first-broken',
    latency_us: 0,
    beams: 2,
    defeated_by:
      'Whoever breaks both beams and turns back is counted as through, and somebody who only touched one beam gives the next person, from the other side, the wrong direction.',
    initial: () => REST,
    step,
    label: ({ phase }) => phase,
  };
}
