/** Which limbs of a body are gone when something is taken away. */
import type { Body } from '../../agents/body.js';
import { PET_LIMB } from '../../agents/pets/build.js';
import type { Removal } from '../../score/why-classes.js';

/** Places among a person's limbs: trunk, head and neck come first, then thigh, shank, foot, upper arm and forearm of each side. */
const ARMS = [8, 9, 13, 14];
const LOWER_LEGS = [6, 7, 11, 12];
/** What is held comes after the person's own. */
const FIRST_HELD = 15;

/** Empty when it takes nothing of this body. */
export function hiddenLimbs(body: Body, removals: ReadonlySet<Removal>): ReadonlySet<number> {
  const hidden = new Set<number>();
  const hide = (limbs: Iterable<number>): void => {
    for (const limb of limbs) hidden.add(limb);
  };
  if (body.sort === 'person') {
    if (removals.has('arms')) hide(ARMS);
    if (removals.has('lower legs')) hide(LOWER_LEGS);
    if (removals.has('load')) for (let limb = FIRST_HELD; limb < body.limbs.count; limb++) hidden.add(limb);
  }
  if (body.sort === 'pet' && removals.has('lower legs'))
    for (let limb = PET_LIMB.firstLeg + 1; limb < PET_LIMB.tail; limb += 2) hidden.add(limb);
  return hidden;
}
