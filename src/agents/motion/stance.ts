/** Standing still, as a pose: what stops, turns and pauses begin and end with. Units G, w from the hip. */
import { DEG } from '../../engine/arithmetic.js';
import { armPose } from '../gait/arm-model.js';
import { footAxis } from '../gait/foot.js';
import { classElbow } from '../gait/gait-table.js';
import type { Joint } from '../gait/leg-model.js';
import { LEG, kneeOf, legReach2 } from '../gait/leg-model.js';

/** The ankles of somebody standing are a little behind the hips. */
export const ANKLE_BEHIND = 0.012;
/** Knees are not locked: bent by 4°. */
export const STANDING_HIP = LEG.ankle_height + Math.sqrt(legReach2(4 * DEG) - ANKLE_BEHIND * ANKLE_BEHIND);

export interface Stance {
  readonly hip: Joint;
  readonly knee: Joint;
  readonly ankle: Joint;
  readonly heel: Joint;
  readonly toe: Joint;
}

export const STANCE: Stance = (() => {
  const hip = { w: 0, z: STANDING_HIP };
  const ankle = { w: -ANKLE_BEHIND, z: LEG.ankle_height };
  return { hip, knee: kneeOf(hip, ankle), ankle, ...footAxis(ankle, 0) };
})();

/** Elbow and hand of a hanging arm, against the shoulder; bent as in the steps around the stop. */
export function hangingArm(elbowDeg: number): ReturnType<typeof armPose> {
  return armPose(0, classElbow(elbowDeg) * DEG);
}
