/**
 * The four-level walk: a body deeper than the spacing, going forward, shows 00 → 10 → 11 → 01 → 00 (bits A, B).
 *
 * The four patterns are a Gray code, so the walk is read as a quadrature encoder is: each change of one beam is a
 * quarter step, +1 forward or −1 backward, and the position counts from the last time both beams were clear. Back at
 * 00 the position is +4 (one `forward`), −4 (one `backward`) or 0 (turned back, at whatever depth and after whatever
 * hesitation). From both-clear to both-clear there is at most one tally, however many bodies overlap.
 *
 * When both beams change at one instant an edge was lost and the change has two readings, two quarter steps either
 * way. The walk goes on only where both readings agree on the state that follows, and never tallies on a guess:
 *
 * | change | readings | what is done |
 * | --- | --- | --- |
 * | 00 → 11 | +2, −2 | lost: waits for 00, no tally |
 * | 11 → 00 | +4, 0 | at rest, no tally |
 * | 10 → 01 going forward | +3, −1 | lost (so is the mirror) |
 * | 01 → 10 going forward | +1 of this walk, +1 of the next | +1, no tally yet (so is the mirror) |
 *
 * Two bodies that overlap in opposite directions are one walk: whoever broke a beam first and whoever left last decide.
 */
import { BOTH, CLEAR, ONLY_A, ONLY_B, maskOf } from './levels.js';
import type { Logic, LogicInput, LogicStep } from './logic.js';
import { BACKWARD, FORWARD, NONE, microseconds, restingStep } from './steps.js';

/** Both beams changed at one instant: an edge is missing. */
export const EDGE_LOST = 9;

/**
 * Quarter steps by `4 × mask before + mask after` (masks 00, 10, 01, 11 as 0 to 3): +1 forward, −1 backward, 0 no
 * change, {@link EDGE_LOST} where both beams changed.
 * Source: the standard decoding table of two channels in quadrature, signs by A being met first going forward.
 */
// biome-ignore format: a table of four rows
export const QUARTER_STEPS: readonly number[] = Object.freeze([
  // to 00   10         01         11
  0,         1,         -1,        EDGE_LOST, // from 00
  -1,        0,         EDGE_LOST, 1,         // from 10
  1,         EDGE_LOST, 0,         -1,        // from 01
  EDGE_LOST, -1,        1,         0,         // from 11
]);

/** Not a position: direction forgotten, both beams must be clear before a walk begins. */
const LOST = 9;

export interface Walk {
  /** Quarter steps from the rest, −3 to +3; {@link LOST} when direction is unknown. */
  readonly at: number;
  /** When the levels last changed, microseconds. */
  readonly since_us: number;
}

const REST = Object.freeze({ at: 0, since_us: 0 });
const AT_REST = restingStep<Walk>(REST);
const WENT_FORWARD = restingStep<Walk>(REST, FORWARD);
const WENT_BACKWARD = restingStep<Walk>(REST, BACKWARD);
const IS_LOST = restingStep<Walk>(Object.freeze({ at: LOST, since_us: 0 }));

/** Levels at positions −3 to +3. */
const MASK_AT = [ONLY_A, BOTH, ONLY_B, CLEAR, ONLY_A, BOTH, ONLY_B];

/**
 * @param options.timeout_ms without a change for this long while not at rest, the walk forgets its direction and waits
 *   for both beams to be clear; no tally. A change at that very instant comes too late.
 */
export function fourLevel(options: { readonly name?: string; readonly timeout_ms: number }): Logic<Walk> {
  const timeout_us = microseconds(options.timeout_ms);

  function step(walk: Walk, input: LogicInput): LogicStep<Walk> {
    const mask = maskOf(input.levels);
    const lost = walk.at === LOST || (walk.at !== 0 && input.time_us - walk.since_us >= timeout_us);
    if (lost) return mask === CLEAR ? AT_REST : IS_LOST;

    const before = MASK_AT[walk.at + 3] as number;
    if (mask === before) {
      return walk.at === 0 ? AT_REST : { state: walk, tallies: NONE, wake_us: walk.since_us + timeout_us };
    }
    const at = positionAfter(walk.at, before, mask);
    if (at === LOST) return IS_LOST;
    if (mask === CLEAR) return at === 4 ? WENT_FORWARD : at === -4 ? WENT_BACKWARD : AT_REST;
    return { state: { at, since_us: input.time_us }, tallies: NONE, wake_us: input.time_us + timeout_us };
  }

  return {
    name: options.name ?? 'four-level',
    latency_us: 0,
    beams: 2,
    defeated_by:
      'A body shallower than the spacing is never counted, bodies that overlap from both-clear to both-clear count as one, and an edge lost between two polls loses the passage.',
    initial: () => REST,
    step,
    label: ({ at }) =>
      at === LOST ? 'lost' : at === 0 ? 'rest' : `${at > 0 ? 'forward' : 'backward'} ${Math.abs(at)}/4`,
  };
}

function positionAfter(at: number, before: number, after: number): number {
  const quarter = QUARTER_STEPS[4 * before + after] as number;
  if (quarter !== EDGE_LOST) return at + quarter;
  if (after === CLEAR) return 0;
  if (at === 3) return 1;
  if (at === -3) return -1;
  return LOST;
}
