/** How arms hold a load, or an infant: the upper arm hangs, the forearm is held, and neither swings. */
import { HOLDING, PULLING, PUSHING } from '../figures/loads.js';
import { CARRYING } from '../figures/manner.js';
import type { Person } from '../person.js';
import type { Load } from '../schema.js';
import { LOAD_KINDS } from './kinds.js';

/** Shares of the forearm's length forward and down, and where the hand is across, as a share of the shoulder's place. */
export interface Held {
  readonly forward: number;
  readonly down: number;
  readonly across: number;
}

const HOLDS_INFANT: Held = { forward: 1, down: 0, across: CARRYING.value.hand_across };

/** How an arm is held; null for one that swings. An infant is on the left arm, a case in the right hand. */
export function heldArm(person: Person, load: Load | undefined, right: boolean): Held | null {
  if (person.infant && !right) return HOLDS_INFANT;
  switch (load === undefined ? 'none' : LOAD_KINDS[load].arms) {
    case 'hold':
      return HOLDING.value;
    case 'push':
      return pushing(person, load as Load);
    case 'pull':
      return right ? PULLING.value : null;
    case 'none':
      return null;
  }
}

/** The forearm reaches from the hanging elbow to the height of the handle, as nearly as it can. */
export function pushing(person: Person, load: Load): Held {
  const { steepest, across } = PUSHING.value;
  const share = (elbowHeight(person) - LOAD_KINDS[load].handle_m) / person.forearm_m;
  const down = Math.min(steepest, Math.max(-steepest, share));
  return { forward: Math.sqrt(1 - down * down), down, across };
}

/** Of a hanging arm, metres above the floor. */
export function elbowHeight(person: Person): number {
  return person.shoulder_height_m - person.upper_arm_radius_m - person.upper_arm_m;
}
