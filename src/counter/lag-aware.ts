/**
 * Durations and lag: how long each beam was broken, and how much later the middle of B's time is than the middle of A's.
 *
 * What passes through keeps both beams broken for about as long, one after the other, so that the middles lie apart by
 * spacing over speed; whoever turns back keeps the middles together. Asked is the lag as a share of the mean duration, which
 * is spacing over depth and doesn't depend on speed. Breaks of one body that come in pieces, as legs do, are added up
 * until both beams have been clear for a gap; so what is shallower than the spacing is counted too.
 */
import { CLEAR, maskOf } from './levels.js';
import type { Logic, LogicInput, LogicStep } from './logic.js';
import { BACKWARD, FORWARD, NONE, microseconds, restingStep } from './steps.js';

export interface Lag {
  readonly phase: 'rest' | 'busy' | 'gap' | 'lost';
  /** Levels after the last change. */
  readonly mask: number;
  /** When that was, and when the first beam was broken, microseconds. */
  readonly since_us: number;
  readonly start_us: number;
  /** How long each beam was broken so far, microseconds. */
  readonly a_us: number;
  readonly b_us: number;
  /** Twice the first moment of each beam's broken time about the start, microseconds squared. */
  readonly aMoment: number;
  readonly bMoment: number;
}

const REST: Lag = Object.freeze({
  phase: 'rest',
  mask: CLEAR,
  since_us: 0,
  start_us: 0,
  a_us: 0,
  b_us: 0,
  aMoment: 0,
  bMoment: 0,
});
const AT_REST = restingStep(REST);
const WENT_FORWARD = restingStep(REST, FORWARD);
const WENT_BACKWARD = restingStep(REST, BACKWARD);

export interface LagOptions {
  readonly name?: string;
  /** Both beams clear for so long: whoever was there is gone. */
  readonly gap_ms: number;
  /** The lag must be this share of the mean duration at least. */
  readonly least_lag_share: number;
  /** The shorter of the two durations must be this share of the longer at least. */
  readonly alike_share: number;
  /** Whoever stays longer is given up. */
  readonly timeout_ms: number;
}

export function lagAware(options: LagOptions): Logic<Lag> {
  const gap_us = microseconds(options.gap_ms);
  const timeout_us = microseconds(options.timeout_ms);

  function step(state: Lag, { time_us, levels }: LogicInput): LogicStep<Lag> {
    const mask = maskOf(levels);
    // What was over before this instant is decided first.
    if (state.phase === 'gap' && time_us - state.since_us >= gap_us) {
      const way = decide(state);
      if (mask === CLEAR) return way === 0 ? AT_REST : way > 0 ? WENT_FORWARD : WENT_BACKWARD;
      const next = begin(time_us, mask);
      return way === 0 ? next : { ...next, tallies: way > 0 ? FORWARD : BACKWARD };
    }
    if (state.phase === 'rest') return mask === CLEAR ? AT_REST : begin(time_us, mask);
    if (state.phase === 'lost') return lost(mask);
    if (time_us - state.start_us >= timeout_us) return lost(mask);
    if (mask === state.mask) return { state, tallies: NONE, wake_us: wakeOf(state) };
    return go(added(state, time_us, mask));
  }

  function begin(time_us: number, mask: number): LogicStep<Lag> {
    return go({ ...REST, phase: 'busy', mask, since_us: time_us, start_us: time_us });
  }

  function go(state: Lag): LogicStep<Lag> {
    return { state, tallies: NONE, wake_us: wakeOf(state) };
  }

  function wakeOf({ phase, since_us, start_us }: Lag): number {
    return phase === 'gap' ? since_us + gap_us : start_us + timeout_us;
  }

  function lost(mask: number): LogicStep<Lag> {
    return mask === CLEAR ? AT_REST : { state: { ...REST, phase: 'lost', mask }, tallies: NONE };
  }

  /** Time up to now goes to the beams that were broken. */
  function added(state: Lag, time_us: number, mask: number): Lag {
    const { since_us, start_us } = state;
    const length_us = time_us - since_us;
    const moment = length_us * (since_us + time_us - 2 * start_us);
    const [a, b] = [state.mask & 1, (state.mask >> 1) & 1];
    return {
      phase: mask === CLEAR ? 'gap' : 'busy',
      mask,
      since_us: time_us,
      start_us,
      a_us: state.a_us + a * length_us,
      b_us: state.b_us + b * length_us,
      aMoment: state.aMoment + a * moment,
      bMoment: state.bMoment + b * moment,
    };
  }

  /** +1 forward, −1 backward, 0 nobody. */
  function decide({ a_us, b_us, aMoment, bMoment }: Lag): -1 | 0 | 1 {
    if (a_us === 0 || b_us === 0) return 0;
    if (Math.min(a_us, b_us) < options.alike_share * Math.max(a_us, b_us)) return 0;
    // Moments are doubled, so the lag is too.
    const lag2_us = bMoment / b_us - aMoment / a_us;
    if (Math.abs(lag2_us) < options.least_lag_share * (a_us + b_us)) return 0;
    return lag2_us > 0 ? 1 : -1;
  }

  return {
    name: options.name ?? 'lag-aware',
    latency_us: gap_us,
    beams: 2,
    defeated_by:
      'Bodies that overlap, or follow within the gap, are one; whoever stands on the threshold for long hides the lag, and so does a body that is very deep for the spacing.',
    initial: () => REST,
    step,
    label: ({ phase }) => phase,
  };
}
