/** Rough bounds of somebody turning on a spot: most limbs are out of most beams' reach, and then no track need be made. */
import type { FlatBeam } from '../../geometry/beam-line.js';
import type { Limb } from '../../geometry/track.js';
import { ARM } from '../gait/arm-model.js';
import { PART } from '../gait/parts.js';
import { STANCE } from './stance.js';

/** Wider than any clearance a sensor asks for, as a share of the leg unit. */
const SPARE = 0.08;

/** Lowest and highest a part's ends stand, G; elbows bend up to a right angle. */
const HEIGHTS: Readonly<Record<number, readonly [number, number]>> = {
  [PART.trunk]: [STANCE.hip.z, STANCE.hip.z],
  [PART.thighR]: [STANCE.knee.z, STANCE.hip.z],
  [PART.thighL]: [STANCE.knee.z, STANCE.hip.z],
  [PART.shankR]: [STANCE.ankle.z, STANCE.knee.z],
  [PART.shankL]: [STANCE.ankle.z, STANCE.knee.z],
  [PART.footR]: [0, STANCE.ankle.z],
  [PART.footL]: [0, STANCE.ankle.z],
};
const ARMS: readonly [number, number] = [STANCE.hip.z - ARM.upper - ARM.forearm_and_hand, STANCE.hip.z];
/** Furthest that toes or hands stand from the hip's axis, before a limb's own offsets, G. */
const FURTHEST = 0.25;

/**
 * Whether a limb of somebody who turns on the frame's origin can come near a level beam; true for
 * any beam that isn't level. `lift` is how high feet are lifted. Model units.
 */
export function reachesFromSpot(limb: Limb, beam: FlatBeam, lift: number): boolean {
  if (beam.vl !== 0 || beam.vw !== 0) return true;
  const spare = limb.radius + SPARE;
  const [low, high] = HEIGHTS[limb.part] ?? ARMS;
  const z = -beam.v0;
  if (z < low + Math.min(limb.az, limb.bz) - spare || z > high + lift + Math.max(limb.az, limb.bz) + spare)
    return false;
  const offset = Math.abs(limb.al) + Math.abs(limb.aw) + Math.abs(limb.bl - limb.al) + Math.abs(limb.bw - limb.aw);
  return Math.abs(beam.u0) <= FURTHEST + offset + spare;
}
