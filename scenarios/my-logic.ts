/**
 * A counting logic of your own in TypeScript. There is nothing to build; change it, run the scenario again, and see what
 * it costs or gains:
 *
 *     jambeam run scenario.yaml --logic my-logic.ts --logic four-level
 *     jambeam passage scenario.yaml --logic my-logic.ts
 *
 * This one is first-broken order: the beam broken first gives the direction, and one person is counted when both beams
 * have been broken and both are clear again. It counts as the built-in `first-broken` does.
 */
import { defineLogic } from 'jambeam';

/** Times are whole microseconds. After so long without a change it gives up what it was waiting for. */
const TIMEOUT_US = 4_000_000;

/** All it remembers from one input to the next: plain data, and never changed in place. */
interface State {
  /** Which beam was broken first; 'unknown' when nobody can say, and it waits until both are clear. */
  readonly first: 'none' | 'A' | 'B' | 'unknown';
  /** Whether the other beam has been broken too. */
  readonly both: boolean;
  /** The levels after the last change, A first: '10' is A broken, B clear. */
  readonly levels: string;
  /** When that was. */
  readonly since_us: number;
}

const REST: State = { first: 'none', both: false, levels: '00', since_us: 0 };

export default defineLogic<State>({
  beams: 2,
  // How long after somebody has left the doorway a tally of their passage may still come.
  latency_us: 0,
  defeated_by: 'Whoever breaks both beams and turns back is counted as through.',
  initial: () => REST,

  // Called whenever a beam changes, and when a wake-up that was asked for is due.
  step(state, { time_us, levels }) {
    const now = levels.join('');
    let { first, both } = state;

    if (first === 'A' || first === 'B') {
      const late = time_us - state.since_us >= TIMEOUT_US;
      // Nothing has changed: wait on, and be woken when the time is over.
      if (!late && now === state.levels) return { state, tallies: [], wake_us: state.since_us + TIMEOUT_US };
      if (late) {
        first = state.levels === '00' ? 'none' : 'unknown';
        both = false;
      }
    }

    if (now === '00') {
      if (first === 'none' || first === 'unknown') return { state: REST, tallies: [] };
      if (both) return { state: REST, tallies: [first === 'A' ? 'forward' : 'backward'] };
    }
    if (first === 'none') first = now === '10' ? 'A' : now === '01' ? 'B' : 'unknown';
    if (first === 'unknown') return { state: { first, both: false, levels: now, since_us: 0 }, tallies: [] };

    if (now[first === 'A' ? 1 : 0] === '1') both = true;
    return { state: { first, both, levels: now, since_us: time_us }, tallies: [], wake_us: time_us + TIMEOUT_US };
  },

  // A word for each state, for `jambeam passage`.
  label: ({ first, both }) => (first === 'none' ? 'rest' : both ? `${first} first, then both` : `${first} first`),
});
