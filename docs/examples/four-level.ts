/**
 * The four-level walk as a module: jambeam run SCENARIO --logic four-level.ts
 *
 * It counts as the built-in four-level does, tally by tally.
 */
import { defineLogic } from 'jambeam';

const TIMEOUT_US = 10_000_000;
/** The walk forward as levels of A and B; backward it is the mirror. */
const RING = ['00', '10', '11', '01'];

/** Quarter steps from the rest, −3 to +3; 'lost' when the direction is unknown. */
type At = number | 'lost';

interface State {
  readonly at: At;
  /** When the levels last changed. */
  readonly since_us: number;
}

const REST: State = { at: 0, since_us: 0 };
const LOST: State = { at: 'lost', since_us: 0 };

function levelsAt(at: number): string {
  return RING[(at + 4) % 4]!;
}

function after(at: number, now: string): At {
  const steps = (RING.indexOf(now) - RING.indexOf(levelsAt(at)) + 4) % 4;
  if (steps !== 2) return at + (steps === 3 ? -1 : steps);
  // Both beams changed at once: an edge was lost.
  if (now === '00') return 0;
  return at === 3 ? 1 : at === -3 ? -1 : 'lost';
}

export default defineLogic<State>({
  beams: 2,
  latency_us: 0,
  defeated_by: 'A body shallower than the spacing is never counted; bodies that overlap count as one.',
  initial: () => REST,
  step(state, { time_us, levels }) {
    const now = levels.join('');
    if (state.at === 'lost' || (state.at !== 0 && time_us - state.since_us >= TIMEOUT_US))
      return { state: now === '00' ? REST : LOST, tallies: [] };
    if (now === levelsAt(state.at)) {
      if (state.at === 0) return { state, tallies: [] };
      return { state, tallies: [], wake_us: state.since_us + TIMEOUT_US };
    }
    const at = after(state.at, now);
    if (at === 'lost') return { state: LOST, tallies: [] };
    if (now === '00') return { state: REST, tallies: at === 4 ? ['forward'] : at === -4 ? ['backward'] : [] };
    return { state: { at, since_us: time_us }, tallies: [], wake_us: time_us + TIMEOUT_US };
  },
  label: ({ at }) => (at === 0 ? 'rest' : String(at)),
});
