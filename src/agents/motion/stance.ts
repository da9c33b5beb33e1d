/** Standing still, as a pose: what stops, turns and pauses begin and end with. Units G, w from the hip. */
import { DEG } from '../../engine/arithmetic.js';
import { STANCE_SHAPE } from '../figures/stillness.js';
import { armPose } from '../gait/arm-model.js';
import { footAxis } from '../gait/foot.js';
import { classElbow } from '../gait/gait-table.js';
import type { Joint } from '../gait/leg-model.js';
import { LEG, kneeOf, legReach2 } from '../gait/leg-model.js';
import { PART } from '../gait/parts.js';

/** The ankles of somebody standing are a little behind the hips. */
export const ANKLE_BEHIND = STANCE_SHAPE.value.ankle_behind;
/** Knees are not locked. */
export const STANDING_HIP =
  LEG.ankle_height + Math.sqrt(legReach2(STANCE_SHAPE.value.knee_bend_deg * DEG) - ANKLE_BEHIND * ANKLE_BEHIND);

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

/** Elbow and hand of a hanging arm, against the shoulder; bent as in the steps around the stop. One for each class. */
export function hangingArm(elbowDeg: number): ReturnType<typeof armPose> {
  const elbow = classElbow(elbowDeg);
  let arm = hanging.get(elbow);
  if (!arm) hanging.set(elbow, (arm = armPose(0, elbow * DEG)));
  return arm;
}
const hanging = new Map<number, ReturnType<typeof armPose>>();

/**
 * A joint of somebody standing, how much of the trunk's sway it follows (1 above the hips, 0 on the floor), and how much
 * of its turn: what does not turn with the trunk goes with the foot.
 */
export interface StandingEnd extends Joint {
  readonly sways: number;
  readonly turns: number;
}

/** The two ends of a part of somebody standing, before a limb's own offsets. */
export function standingEnds(part: number, elbowDeg: number): readonly [StandingEnd, StandingEnd] {
  const fixed = ENDS[part];
  if (fixed) return fixed;
  const arm = hangingArm(elbowDeg);
  const elbow = { w: STANCE.hip.w + arm.elbowW, z: STANCE.hip.z + arm.elbowZ, sways: 1, turns: 1 };
  if (part === PART.upperArmR || part === PART.upperArmL) return [HIP, elbow];
  return [elbow, { w: STANCE.hip.w + arm.handW, z: STANCE.hip.z + arm.handZ, sways: 1, turns: 1 }];
}
const HIP: StandingEnd = { ...STANCE.hip, sways: 1, turns: 1 };
const KNEE: StandingEnd = { ...STANCE.knee, sways: 0.5, turns: 0.5 };
const ANKLE: StandingEnd = { ...STANCE.ankle, sways: 0, turns: 0 };
/** What rolls stands still on the floor and is swung round with the trunk. */
const CARRIAGE: StandingEnd = { w: 0, z: 0, sways: 0, turns: 1 };
const FOOT: readonly [StandingEnd, StandingEnd] = [
  { ...STANCE.heel, sways: 0, turns: 0 },
  { ...STANCE.toe, sways: 0, turns: 0 },
];
const ENDS: Readonly<Record<number, readonly [StandingEnd, StandingEnd]>> = {
  [PART.trunk]: [HIP, HIP],
  [PART.thighR]: [HIP, KNEE],
  [PART.thighL]: [HIP, KNEE],
  [PART.shankR]: [KNEE, ANKLE],
  [PART.shankL]: [KNEE, ANKLE],
  [PART.footR]: FOOT,
  [PART.footL]: FOOT,
  [PART.carriage]: [CARRIAGE, CARRIAGE],
};
