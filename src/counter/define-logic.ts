/** How a user's own module says what its logic is; what can be left out has a default. */
import type { LogicInput, LogicStep } from './logic.js';

/** A counting logic of your own: a state, and a step from it by what the beams say. */
export interface LogicDefinition<State> {
  /** How many beams it expects, 1 to 8; the doors must have as many. */
  readonly beams: number;
  /** How long after a body has left the doorway zone a tally of its passage may still come, microseconds; 0 if left out. */
  readonly latency_us?: number | undefined;
  /** Whether it wants an input at every reading of a ranger too, not only when a level changes. */
  readonly readings?: boolean | undefined;
  /** One sentence on what defeats it, for reports. */
  readonly defeated_by?: string | undefined;
  /** The state it starts in: plain data, the same each time. */
  initial(): State;
  /** What follows from a state and an input: the same each time, and nothing it was given is changed. */
  step(state: State, input: LogicInput): LogicStep<State>;
  /** Short label of a state for traces and pictures; its JSON if left out. */
  label?(state: State): string;
}

/**
 * Gives its argument back: it is there so that an editor knows the types.
 *
 * @example export default defineLogic({ beams: 2, initial: () => 0, step: (state) => ({ state, tallies: [] }) });
 */
export function defineLogic<State>(definition: LogicDefinition<State>): LogicDefinition<State> {
  return definition;
}
