/**
 * Gait tables: the walk of everybody with about the same step length in leg units, at 128 nodes a cycle.
 *
 * Leg joints in leg units depend on step length and phase alone, so a table serves all bodies of its class (classes
 * are 0.004 G wide). Between nodes joints move in straight lines: that is the model, within half a millimetre of the
 * smooth curves up to a step of 0.40 G, within a millimetre up to 0.48. Phase 0 is contact of the right foot; the left leg is half a cycle behind.
 */
import { DEG, cos } from '../../engine/arithmetic.js';
import type { LimbTrack, NodeSpan, PointTrack, PoseTracks } from '../../geometry/track.js';
import { heightsOf, limbTrack, pointTrack, setPoint } from '../../geometry/track.js';
import { SIDE_SWAY } from '../figures/legs.js';
import { armPose, elbowAngle, shoulderAngle } from './arm-model.js';
import { footAxis } from './foot.js';
import type { LegPose } from './leg-model.js';
import { legModelOf } from './leg-model.js';
import { PART } from './parts.js';

export const NODES = 128;
const HALF = NODES / 2;
const CLASS_WIDTH = 0.004;
const ELBOW_CLASS_DEG = 5;
/** Mean elbow angle of the class an elbow angle falls into, degrees. */
export function classElbow(elbowDeg: number): number {
  return Math.round(elbowDeg / ELBOW_CLASS_DEG) * ELBOW_CLASS_DEG;
}
/** Step lengths outside are not walked: at the ends a body takes the nearest class. */
const SHORTEST = 0.2;
const LONGEST = 0.6;

/** Half of the side-to-side movement of the trunk, G: the published ends put on step length. */
function sideSway(step: number): number {
  const { slow, fast, slow_step, fast_step, stature, least, most } = SIDE_SWAY.value;
  const share = (step - slow_step) / (fast_step - slow_step);
  return Math.min(most, Math.max(least, (slow + (fast - slow) * share) / stature));
}

/** Sideways place of the trunk at phase f of the right leg, G: over the standing leg, to the right in the middle of the right foot's stance. */
export function trunkSway(step: number, f: number): number {
  return sideSway(step) * cos(360 * DEG * (f - SIDE_SWAY.value.right_at));
}

/** Step length of the class a step length falls into, G. */
export function classStep(step: number): number {
  const clamped = Math.min(LONGEST, Math.max(SHORTEST, step));
  return Math.round(clamped / CLASS_WIDTH) * CLASS_WIDTH;
}

const legs = new Map<number, { span: NodeSpan; trunk: PointTrack; parts: LimbTrack[] }>();
const whole = new Map<number, PoseTracks>();

/**
 * The table for a step length and a mean elbow angle, made on first use and kept (some 160 kB each).
 *
 * @param step step length, G @param elbowDeg mean elbow flexion, degrees, 0 to 90
 */
export function gaitTable(step: number, elbowDeg: number): PoseTracks {
  const stepClass = Math.round(classStep(step) / CLASS_WIDTH);
  const elbowClass = Math.round(elbowDeg / ELBOW_CLASS_DEG);
  const key = stepClass * 64 + elbowClass;
  let table = whole.get(key);
  if (!table) {
    table = buildWhole(stepClass, elbowClass * ELBOW_CLASS_DEG);
    whole.set(key, table);
  }
  return table;
}

function buildWhole(stepClass: number, elbowDeg: number): PoseTracks {
  let base = legs.get(stepClass);
  if (!base) {
    base = buildLegs(stepClass * CLASS_WIDTH);
    legs.set(stepClass, base);
  }
  const { span, trunk } = base;
  const parts = [...base.parts];
  for (const side of [0, 1] as const) {
    const elbow = pointTrack(NODES);
    const hand = pointTrack(NODES);
    for (let k = 0; k < NODES; k++) {
      const f = ((k + side * HALF) % NODES) / NODES;
      const arm = armPose(shoulderAngle(f, stepClass * CLASS_WIDTH), elbowAngle(f, elbowDeg));
      setPoint(elbow, k, trunk.l[k]!, trunk.w[k]! + arm.elbowW, trunk.z[k]! + arm.elbowZ);
      setPoint(hand, k, trunk.l[k]!, trunk.w[k]! + arm.handW, trunk.z[k]! + arm.handZ);
    }
    parts[side === 0 ? PART.upperArmR : PART.upperArmL] = limbTrack(trunk, elbow, span);
    parts[side === 0 ? PART.forearmR : PART.forearmL] = limbTrack(elbow, hand, span);
  }
  return { span, made: parts, part: (index) => parts[index]!, heights: heightsOf(parts) };
}

function buildLegs(step: number): { span: NodeSpan; trunk: PointTrack; parts: LimbTrack[] } {
  const model = legModelOf(step);
  const span: NodeSpan = { nodes: NODES, advance: 2 * step };
  const poses: LegPose[] = Array.from({ length: NODES }, (_, k) => model.pose(k / NODES));
  const trunk = pointTrack(NODES);
  const carriage = pointTrack(NODES);
  for (let k = 0; k < NODES; k++) {
    const f = k / NODES;
    setPoint(trunk, k, trunkSway(step, f), 2 * step * f, model.hipHeight(f));
    setPoint(carriage, k, 0, 2 * step * f, 0);
  }
  const parts: LimbTrack[] = [];
  parts[PART.trunk] = limbTrack(trunk, trunk, span);
  parts[PART.carriage] = limbTrack(carriage, carriage, span);
  for (const side of [0, 1] as const) {
    const hip = pointTrack(NODES);
    const knee = pointTrack(NODES);
    const ankle = pointTrack(NODES);
    const heel = pointTrack(NODES);
    const toe = pointTrack(NODES);
    for (let k = 0; k < NODES; k++) {
      const m = (k + side * HALF) % NODES;
      const back = side === 0 ? 0 : m < HALF ? step : -step;
      const pose = poses[m]!;
      const foot = footAxis(pose.ankle, pose.pitch);
      setPoint(hip, k, trunk.l[k]!, pose.hip.w + back, pose.hip.z);
      setPoint(knee, k, trunk.l[k]! / 2, pose.knee.w + back, pose.knee.z);
      setPoint(ankle, k, 0, pose.ankle.w + back, pose.ankle.z);
      setPoint(heel, k, 0, foot.heel.w + back, foot.heel.z);
      setPoint(toe, k, 0, foot.toe.w + back, foot.toe.z);
    }
    parts[side === 0 ? PART.thighR : PART.thighL] = limbTrack(hip, knee, span);
    parts[side === 0 ? PART.shankR : PART.shankL] = limbTrack(knee, ankle, span);
    parts[side === 0 ? PART.footR : PART.footL] = limbTrack(heel, toe, span);
  }
  return { span, trunk, parts };
}
