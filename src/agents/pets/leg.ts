/**
 * A leg of a pet over one stride, in the plane of walking. Units: heights at the withers.
 *
 * Phase runs from 0, where the paw lands, to 1. The paw stands still for the duty factor, in the middle of it right
 * under its joint, then swings in a smooth arc that begins and ends at rest. Shoulder or hip glide along with the paw;
 * elbow and knee follow by two-link inverse kinematics, the elbow behind, the knee in front.
 */
import { hump, smoothstep } from '../../engine/interpolate.js';
import { PET_LEGS, PET_LIFT } from '../figures/pets.js';

export interface LegBuild {
  /** Height of shoulder or hip. */
  readonly height: number;
  readonly upper: number;
  readonly lower: number;
  /** Share of the paw's way that the joint glides along. */
  readonly glides: number;
  /** 1 with the knee in front, −1 with the elbow behind. */
  readonly bends: 1 | -1;
}
const LEGS = PET_LEGS.value;
export const FORE: LegBuild = {
  height: LEGS.shoulder_height,
  upper: LEGS.upper_arm,
  lower: LEGS.forearm,
  glides: LEGS.shoulder_glides,
  bends: -1,
};
export const HIND: LegBuild = {
  height: LEGS.hip_height,
  upper: LEGS.thigh,
  lower: LEGS.shank,
  glides: LEGS.hip_glides,
  bends: 1,
};
/** Height of the middle of a standing paw: the capsule of the lower leg then touches the floor. */
export const PAW_HEIGHT = LEGS.lower_radius;

export interface Spot {
  readonly w: number;
  readonly z: number;
}

/** How far a paw falls behind its place of foot-off, in strides, while it sets out slower than the trunk: rounded up. */
const FALLS_BEHIND = 0.012;
/** No leg is ever quite straight. */
const STRETCHED = 0.995;

/** The longest stride that both pairs of legs reach, heights at the withers. */
export function longestStride(duty: number): number {
  const reach = ({ height, upper, lower, glides }: LegBuild): number => {
    const long = STRETCHED * (upper + lower);
    const down = height - PAW_HEIGHT;
    return Math.sqrt(long * long - down * down) / ((1 - glides) * (duty / 2 + FALLS_BEHIND));
  };
  return Math.min(reach(FORE), reach(HIND));
}

/** The paw at a phase: w from the place its joint would have without gliding, z from the floor. */
export function pawAt(stride: number, duty: number, phase: number): Spot {
  const behind = stride * (duty / 2 - phase);
  if (phase <= duty) return { w: behind, z: PAW_HEIGHT };
  const u = (phase - duty) / (1 - duty);
  return { w: behind + stride * smoothstep(u), z: PAW_HEIGHT + lifted(u) };
}

/** Height of a paw over the floor's, `u` from 0 to 1 of its way through the air. */
export function lifted(u: number): number {
  return hump(PET_LIFT.value, u);
}

/** Joint, elbow or knee, and paw; `joint` is where shoulder or hip would be without gliding. */
export function legOf(build: LegBuild, joint: Spot, paw: Spot): { joint: Spot; middle: Spot } {
  const glided = { w: joint.w + build.glides * (paw.w - joint.w), z: joint.z };
  const dw = paw.w - glided.w;
  const dz = paw.z - glided.z;
  const d2 = dw * dw + dz * dz;
  const d = Math.sqrt(d2);
  const { upper, lower } = build;
  const along = (d2 + upper * upper - lower * lower) / (2 * d);
  const aside = build.bends * Math.sqrt(Math.max(0, upper * upper - along * along));
  return {
    joint: glided,
    middle: { w: glided.w + (dw * along - dz * aside) / d, z: glided.z + (dz * along + dw * aside) / d },
  };
}
