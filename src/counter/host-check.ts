/** What a host demands of a step's result: a user's own logic is not to be trusted with the clock. */
import type { LogicStep } from './logic.js';

/** A wish lies less than this far ahead, microseconds: timeouts fit into 31 bits on any controller. */
export const WAKE_LIMIT_US = 2_147_483_648;
/** More tallies than this at one instant are taken for a fault. */
export const TALLY_LIMIT = 100;
/** So many more tallies than inputs from the beams are taken for a fault: whoever is counted has broken a beam. */
export const TALLIES_AHEAD = 1000;
/** Wakes in a row without an input; a logic that asks for more never comes to rest. */
export const WAKES_IN_A_ROW = 10_000_000;

/** A logic that broke the contract: its name, when, what it gave. For users to read. */
export class LogicError extends Error {
  override readonly name = 'LogicError';
  constructor(
    readonly logic: string,
    readonly time_us: number,
    readonly fault: string,
  ) {
    super(`logic "${logic}" at ${time_us} µs: ${fault}`);
  }
}

/** Holds the tallies of one door against what the beams said: a logic that has gone wild is stopped, not believed. */
export class TallyMeter {
  private ahead = 0;

  /** The beams said something. */
  input(): void {
    this.ahead--;
  }

  /** @returns what is wrong with `count` more tallies; null if nothing is */
  tallies(count: number): string | null {
    this.ahead += count;
    return this.ahead > TALLIES_AHEAD
      ? `over ${TALLIES_AHEAD} more tallies than inputs from the beams: it counts by itself`
      : null;
  }
}

/** What is wrong with `step`, given for an input at `time_us`; null if nothing is. */
export function faultOf(step: LogicStep<unknown>, time_us: number): string | null {
  if (typeof step !== 'object' || step === null)
    return `a step must return an object with state and tallies, got ${show(step)}`;
  const { tallies, wake_us } = step;
  if (!Array.isArray(tallies)) return `tallies must be a list, got ${show(tallies)}`;
  if (tallies.length > TALLY_LIMIT) return `at most ${TALLY_LIMIT} tallies at one instant, got ${tallies.length}`;
  for (let i = 0; i < tallies.length; i++) {
    const tally: unknown = tallies[i];
    if (tally !== 'forward' && tally !== 'backward')
      return `a tally must be "forward" or "backward", got ${show(tally)}`;
  }
  if (wake_us === undefined) return null;
  if (!Number.isSafeInteger(wake_us)) return `wake_us must be a whole number of microseconds, got ${show(wake_us)}`;
  if (wake_us <= time_us) return `wake_us must be later than the input, got ${wake_us}`;
  if (wake_us - time_us >= WAKE_LIMIT_US)
    return `wake_us must be less than 2^31 µs (36 minutes) ahead, got ${wake_us - time_us}`;
  return null;
}

function show(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value.slice(0, 40));
  if (typeof value === 'object' && value !== null) return Array.isArray(value) ? 'a list' : 'an object';
  return typeof value === 'function' ? 'a function' : String(value);
}
