/** Bodies that roll as one piece, evenly and straight ahead: somebody in a wheelchair of their own, a robot vacuum. */
import type { Body } from '../body.js';
import { rigidBody } from '../body.js';
import { WHEELCHAIR } from '../figures/loads.js';
import { PART } from '../gait/parts.js';
import type { Person } from '../person.js';
import type { Limb } from '../../geometry/limbs.js';
import type { Place } from './shapes.js';
import { tube } from './shapes.js';
import { chair, seatedHeight, sitter } from './wheelchair.js';

/** One unit is a metre; what rolls as one piece has one part. */
const PLACE: Place = { part: PART.trunk, unit_m: 1, zero_m: 0 };

/** Somebody who drives a wheelchair. Their trunk axis is where they sit; `stature_m` is the crown's height, seated. */
export function wheelchairUser(who: string, number: number, person: Person, speed_mps: number): Body {
  const own = {
    sort: 'person',
    persons: 1,
    stature_m: seatedHeight(person.stature_m),
    breadth_m: Math.max(WHEELCHAIR.value.across, person.bideltoid_m),
    speed_mps,
  } as const;
  return rigidBody(who, number, own, [...chair(PLACE, 0), ...sitter(PLACE, 0, person)]);
}

/**
 * A flat disc that drives by itself: capsules along the walk, side by side as the disc's chords, so near to each other
 * that the grooves between them are less than 0.14 of their radius deep.
 */
export function robotVacuum(
  who: string,
  number: number,
  diameter_m: number,
  height_m: number,
  speed_mps: number,
): Body {
  const r = Math.min(height_m, diameter_m) / 2;
  const disc = diameter_m / 2 - r;
  const cells = Math.max(1, Math.ceil((2 * disc) / r));
  const limbs: Limb[] = [];
  for (let i = 0; i <= cells; i++) {
    const l = disc * ((2 * i) / cells - 1);
    const half = Math.sqrt(Math.max(0, disc * disc - l * l));
    limbs.push(tube(PLACE, [l, -half, height_m - r], [l, half, height_m - r], r));
  }
  const own = { sort: 'thing', persons: 0, stature_m: height_m, breadth_m: diameter_m, speed_mps } as const;
  return rigidBody(who, number, own, limbs);
}
