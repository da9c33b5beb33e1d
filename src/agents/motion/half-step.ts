/**
 * From walking to standing and back: the closing step and the first step.
 *
 * A walker stops at the moment one foot makes contact: that foot stays planted, the hip comes to rest over it at an
 * even deceleration, the other foot closes beside it. Setting out is the like: the hip leaves the standing foot at an
 * even acceleration while the other foot reaches its first contact. The planted foot never slides: it rolls from heel
 * to sole, or from sole to ball, about one fixed point. No published curve stands behind these two steps; they join
 * published gait to standing without a jump.
 */
import { DEG } from '../../engine/arithmetic.js';
import { hump, smoothstep } from '../../engine/interpolate.js';
import type { LimbTrack, PointTrack, PoseTracks } from '../../geometry/track.js';
import { limbTrack, pointTrack, setPoint } from '../../geometry/track.js';
import { HALF_STEP } from '../figures/stillness.js';
import { armPose, elbowAngle, shoulderAngle } from '../gait/arm-model.js';
import { footAxis } from '../gait/foot.js';
import { classElbow, classStep, trunkSway } from '../gait/gait-table.js';
import type { Joint, LegModel } from '../gait/leg-model.js';
import {
  CONTACT_AHEAD,
  HIP_FORE_AFT,
  LEG,
  LEAST_KNEE_BEND,
  ankleOverPivot,
  kneeOf,
  legModelOf,
  legReach2,
} from '../gait/leg-model.js';
import { PART } from '../gait/parts.js';
import { ANKLE_BEHIND, STANDING_HIP } from './stance.js';

/** Nodes of a half step. */
export const HALF_STEP_NODES = 33;
const LAST = HALF_STEP_NODES - 1;
/** The planted heel is down by this share of a closing step; the planted heel rises from this share of a first step on. */
const { sole_down_at: SOLE_DOWN, heel_up_at: HEEL_UP, lift: LIFT } = HALF_STEP.value;

export type HalfStep = 'closing' | 'first';

/** How far the hip travels, G. */
export function halfStepTravel(kind: HalfStep, step: number): number {
  const s = classStep(step);
  return kind === 'closing' ? CONTACT_AHEAD * s + ANKLE_BEHIND : (1 - CONTACT_AHEAD) * s - ANKLE_BEHIND;
}

/** Trunk and legs of a half step, which all arms share, and the arms' tracks by elbow angle. */
interface Made {
  readonly trunk: PointTrack;
  readonly parts: readonly (LimbTrack | undefined)[];
  readonly arms: Map<number, PoseTracks>;
}
const made = new Map<string, Made>();

/**
 * Tracks of a half step over the time shares 0 … 1, w from the hip at its beginning.
 *
 * @param leading the foot that makes contact: the planted one when closing, the moving one when setting out
 */
export function halfStep(kind: HalfStep, step: number, elbowDeg: number, leading: 'right' | 'left'): PoseTracks {
  const s = classStep(step);
  const key = `${kind} ${s} ${leading}`;
  let base = made.get(key);
  if (!base) {
    base = buildLegs(kind, legModelOf(s), leading);
    made.set(key, base);
  }
  const elbow = classElbow(elbowDeg);
  let tracks = base.arms.get(elbow);
  if (!tracks) {
    tracks = withArms(base, kind, s, elbow, leading);
    base.arms.set(elbow, tracks);
  }
  return tracks;
}

/** Arms are made when a beam first asks for them. */
function withArms(base: Made, kind: HalfStep, step: number, elbowDeg: number, leading: 'right' | 'left'): PoseTracks {
  const parts = [...base.parts];
  const make = (part: number): LimbTrack => {
    const right = part === PART.upperArmR || part === PART.forearmR;
    const upper = part === PART.upperArmR || part === PART.upperArmL;
    const elbow = pointTrack(HALF_STEP_NODES);
    const hand = pointTrack(HALF_STEP_NODES);
    const f = right === (leading === 'right') ? 0 : 0.5;
    for (let k = 0; k <= LAST; k++) {
      const walking = kind === 'closing' ? 1 - k / LAST : k / LAST;
      const arm = armPose(
        shoulderAngle(f, step) * walking,
        elbowDeg * DEG + (elbowAngle(f, elbowDeg) - elbowDeg * DEG) * walking,
      );
      const { l, w, z } = base.trunk;
      setPoint(elbow, k, l[k]!, w[k]! + arm.elbowW, z[k]! + arm.elbowZ);
      setPoint(hand, k, l[k]!, w[k]! + arm.handW, z[k]! + arm.handZ);
    }
    return limbTrack(upper ? base.trunk : elbow, upper ? elbow : hand, SPAN);
  };
  return { span: SPAN, made: parts, part: (index) => (parts[index] ??= make(index)), heights: null };
}
const SPAN = { nodes: HALF_STEP_NODES, advance: 0 };

function buildLegs(kind: HalfStep, model: LegModel, leading: 'right' | 'left'): Made {
  const { step } = model;
  const closing = kind === 'closing';
  const travel = halfStepTravel(kind, step);
  const lead = model.pose(0);
  const trail = model.pose(0.5);
  // Both feet's flat ankles, from the hip at the half step's beginning.
  const planted = closing ? CONTACT_AHEAD * step : -ANKLE_BEHIND;
  const walkHip = model.hipHeight(0);
  const walkingFoot = closing
    ? { ankle: { w: trail.ankle.w - step, z: trail.ankle.z }, pitch: trail.pitch }
    : { ankle: { w: lead.ankle.w + travel, z: lead.ankle.z }, pitch: lead.pitch };
  const standingFoot = { ankle: { w: planted, z: LEG.ankle_height }, pitch: 0 };
  const reach2 = legReach2(LEAST_KNEE_BEND);
  // Where the trunk sways to as the leading foot makes contact.
  const sway = trunkSway(step, leading === 'right' ? 0 : 0.5);

  const trunk = pointTrack(HALF_STEP_NODES);
  const carriage = pointTrack(HALF_STEP_NODES);
  const legs = [0, 1].map(() => ({
    hip: pointTrack(HALF_STEP_NODES),
    knee: pointTrack(HALF_STEP_NODES),
    ankle: pointTrack(HALF_STEP_NODES),
    heel: pointTrack(HALF_STEP_NODES),
    toe: pointTrack(HALF_STEP_NODES),
  }));
  for (let k = 0; k <= LAST; k++) {
    const t = k / LAST;
    // Share of walking in the pose: 1 at the walking end, 0 at the standing end.
    const walking = closing ? 1 - t : t;
    const w = closing ? travel * t * (2 - t) : travel * t * t;
    const pitch = closing
      ? t < SOLE_DOWN
        ? lead.pitch * (1 - t / SOLE_DOWN) * (1 - t / SOLE_DOWN)
        : 0
      : risen(t, trail.pitch);
    const plantedAnkle = ankleOverPivot(planted, pitch);
    const q = closing ? smoothstep(t) : 1 - smoothstep(1 - t);
    const from = closing ? walkingFoot : standingFoot;
    const to = closing ? standingFoot : walkingFoot;
    const bump = hump(LIFT, t);
    const movingAnkle = {
      w: from.ankle.w + (to.ankle.w - from.ankle.w) * q,
      z: from.ankle.z + (to.ankle.z - from.ankle.z) * q + bump,
    };
    const movingPitch = from.pitch + (to.pitch - from.pitch) * q;
    const wanted = walkHip + (STANDING_HIP - walkHip) * (1 - smoothstep(walking));
    // The hip of the leading leg is ahead at its contact.
    const foreAft = (closing ? HIP_FORE_AFT : -HIP_FORE_AFT) * walking;
    const z = Math.min(wanted, highest(w + foreAft, plantedAnkle, reach2), highest(w - foreAft, movingAnkle, reach2));
    const l = sway * walking;
    setPoint(trunk, k, l, w, z);
    setPoint(carriage, k, 0, w, 0);
    const sides = leading === 'right' ? [0, 1] : [1, 0];
    const plantedSide = closing ? sides[0]! : sides[1]!;
    pose(legs[plantedSide]!, k, l, { w: w + foreAft, z }, plantedAnkle, pitch);
    pose(legs[1 - plantedSide]!, k, l, { w: w - foreAft, z }, movingAnkle, movingPitch);
  }
  const parts: (LimbTrack | undefined)[] = [];
  parts[PART.trunk] = limbTrack(trunk, trunk, SPAN);
  parts[PART.carriage] = limbTrack(carriage, carriage, SPAN);
  [PART.thighR, PART.thighL].forEach((part, i) => (parts[part] = limbTrack(legs[i]!.hip, legs[i]!.knee, SPAN)));
  [PART.shankR, PART.shankL].forEach((part, i) => (parts[part] = limbTrack(legs[i]!.knee, legs[i]!.ankle, SPAN)));
  [PART.footR, PART.footL].forEach((part, i) => (parts[part] = limbTrack(legs[i]!.heel, legs[i]!.toe, SPAN)));
  return { trunk, parts, arms: new Map() };
}

type Leg = {
  readonly hip: PointTrack;
  readonly knee: PointTrack;
  readonly ankle: PointTrack;
  readonly heel: PointTrack;
  readonly toe: PointTrack;
};

function pose(leg: Leg, k: number, l: number, hip: Joint, ankle: Joint, pitch: number): void {
  const knee = kneeOf(hip, ankle);
  const foot = footAxis(ankle, pitch);
  setPoint(leg.hip, k, l, hip.w, hip.z);
  setPoint(leg.knee, k, l / 2, knee.w, knee.z);
  setPoint(leg.ankle, k, 0, ankle.w, ankle.z);
  setPoint(leg.heel, k, 0, foot.heel.w, foot.heel.z);
  setPoint(leg.toe, k, 0, foot.toe.w, foot.toe.z);
}

/** Cubic in the last part of a first step: the planted heel's pitch as it is in walking at mid-cycle. */
function risen(t: number, pitch: number): number {
  if (t <= HEEL_UP) return 0;
  const s = (t - HEEL_UP) / (1 - HEEL_UP);
  return pitch * s * s * s;
}

function highest(hipW: number, ankle: Joint, reach2: number): number {
  const dw = hipW - ankle.w;
  return ankle.z + Math.sqrt(Math.max(0, reach2 - dw * dw));
}
