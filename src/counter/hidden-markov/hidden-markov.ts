/**
 * A likelihood filter: a small hidden Markov model of the doorway, learnt from watched visits, says tick by tick how
 * likely the doorway is empty or somebody early, midway or late on their way forward, backward or back again.
 *
 * Counted is how many crossings were completed: the probabilities of the step from *late* to *empty*, added up from the
 * moment the doorway stops being empty until it is empty again as surely as `sure`; then rounded.
 */
import { CLEAR, maskOf } from '../levels.js';
import type { Direction, Logic, LogicInput, LogicStep } from '../logic.js';
import { NONE, restingStep } from '../steps.js';
import { forwardStep, stepProbability } from './forward.js';
import type { Learnt } from './learn.js';
import { EMPTY, STAGES, STATES, stateName, stateOf } from './states.js';

export interface Belief {
  /** Probability of each state; null at rest, when the doorway is taken to be empty. */
  readonly states: readonly number[] | null;
  /** Levels after the last change, and the last tick that was taken, microseconds. */
  readonly mask: number;
  readonly tick_us: number;
  /** Crossings completed since rest, as expected numbers. */
  readonly forward: number;
  readonly backward: number;
}

export const DEFEATED_BY =
  'Two bodies at once, which its states do not know, and a house whose people are not like those it learnt from.';

const FORWARD_WAY = 0;
const BACKWARD_WAY = 1;
/** Longer than this nothing new is learnt from the same levels: so many ticks are taken of it. */
const MOST_TICKS = 1500;
/** With clear beams it is never unsure for longer. */
const MOST_CLEAR_TICKS = 100;

const REST: Belief = Object.freeze({ states: null, mask: CLEAR, tick_us: 0, forward: 0, backward: 0 });
const AT_REST = restingStep(REST);
const SURELY_EMPTY: readonly number[] = Object.freeze(Array.from({ length: STATES }, (_, i) => (i === EMPTY ? 1 : 0)));

/** @param options.sure how surely the doorway must be empty for what was there to be counted */
export function hiddenMarkov(options: { readonly name?: string; readonly sure: number }, model: Learnt): Logic<Belief> {
  const { sure } = options;
  const tick_us = model.tick_us;

  function step(state: Belief, { time_us, levels }: LogicInput): LogicStep<Belief> {
    const mask = maskOf(levels);
    const before = state.states === null ? begun(state, time_us, mask) : until(state, time_us);
    if (before === null) return AT_REST;
    const [settled, tallies] = count(before);
    if (settled === null) return mask === CLEAR ? { ...AT_REST, tallies } : { ...go(begin(time_us, mask)), tallies };
    return go({ ...settled, mask });
  }

  /** From rest something is needed to begin with. */
  function begun(state: Belief, time_us: number, mask: number): Belief | null {
    return mask === CLEAR ? null : { ...begin(time_us, mask), mask: state.mask };
  }

  function begin(time_us: number, mask: number): Belief {
    return { ...REST, states: SURELY_EMPTY, mask, tick_us: time_us };
  }

  /** The ticks up to now, all with the levels as they were. */
  function until(state: Belief, time_us: number): Belief {
    const ticks = Math.floor((time_us - state.tick_us) / tick_us);
    let next = state;
    for (let n = Math.min(ticks, MOST_TICKS); n > 0; n--) {
      next = ticked(next);
      if (next.mask === CLEAR && isEmpty(next)) break;
    }
    return { ...next, tick_us: state.tick_us + ticks * tick_us };
  }

  function ticked(state: Belief): Belief {
    const states = state.states!;
    const now = forwardStep(model, states, state.mask);
    const done = (way: number): number =>
      stepProbability(model, states, now, state.mask, stateOf(way, STAGES.length - 1), EMPTY);
    return {
      ...state,
      states: now,
      tick_us: state.tick_us + tick_us,
      forward: state.forward + done(FORWARD_WAY),
      backward: state.backward + done(BACKWARD_WAY),
    };
  }

  function isEmpty({ states }: Belief): boolean {
    return states![EMPTY]! >= sure;
  }

  /** Whoever was there is counted once the doorway is surely empty; null is rest. */
  function count(state: Belief): [Belief | null, readonly Direction[]] {
    if (state.mask !== CLEAR || !isEmpty(state)) return [state, NONE];
    const tallies: Direction[] = [
      ...Array.from({ length: Math.round(state.forward) }, () => 'forward' as const),
      ...Array.from({ length: Math.round(state.backward) }, () => 'backward' as const),
    ];
    return [null, tallies.length === 0 ? NONE : tallies];
  }

  /** With clear beams it asks to be woken when it will be sure. */
  function go(state: Belief): LogicStep<Belief> {
    if (state.mask !== CLEAR) return { state, tallies: NONE };
    let ahead = state;
    for (let n = 1; n <= MOST_CLEAR_TICKS; n++) {
      ahead = ticked(ahead);
      if (isEmpty(ahead)) return { state, tallies: NONE, wake_us: state.tick_us + n * tick_us };
    }
    return { state, tallies: NONE, wake_us: state.tick_us + MOST_CLEAR_TICKS * tick_us };
  }

  return {
    name: options.name ?? 'hidden-markov',
    latency_us: MOST_CLEAR_TICKS * tick_us,
    beams: Math.round(log2(model.emission[0]!.length)),
    defeated_by: DEFEATED_BY,
    initial: () => REST,
    step,
    label: ({ states }) => stateName(states === null ? EMPTY : states.indexOf(Math.max(...states))),
  };
}

/** Of a power of two. */
function log2(x: number): number {
  let n = 0;
  for (let rest = x; rest > 1; rest /= 2) n++;
  return n;
}
