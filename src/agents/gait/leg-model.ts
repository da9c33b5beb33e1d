/**
 * One leg over one gait cycle, in the plane of walking: the smooth model behind the gait tables.
 *
 * Units: G, the leg unit (stature for an adult; smaller for a child, whose legs are relatively shorter). Phase f runs
 * from 0 (this foot's contact) to 1. w is measured along the path from where the mean hip is at f = 0, so that the
 * mean hip is at w = 2·S·f for step length S; z from the floor.
 *
 * Shape: one point of the stance foot is always fixed on the floor (heel, then the flat sole, then the ball) until
 * foot-off at 61 % of the cycle; the swing foot follows cubic Hermites whose slopes match the stance at both ends; the
 * hip is as high as the most stretched pose allows with the knee still bent 3°; the knee follows from hip and ankle.
 * The constants were fitted to published joint angles (M. H. Schwartz et al., J. Biomech. 41:1639–1650, 2008) and are
 * judged in tests against two further sets.
 */
import { DEG, cos, pow, sin } from '../../engine/arithmetic.js';
import { FITTED, FOOT_LENGTHS, LEG_SHAPE } from '../figures/legs.js';
import { LEG_UNIT_LENGTHS } from '../figures/proportions.js';

/** Fractions of G. */
export const LEG = { ...LEG_UNIT_LENGTHS.value, ...FOOT_LENGTHS.value } as const;
const SHAPE = LEG_SHAPE.value;

export const FOOT_OFF = FITTED.value.foot_off;
const HEEL_PIVOT_ENDS = SHAPE.heel_pivot_ends_at;
const TOE_PIVOT_STARTS = SHAPE.toe_pivot_starts_at;
/** Where the flat foot's ankle stands ahead of the mean hip at contact, in steps. */
export const CONTACT_AHEAD = FITTED.value.contact_ahead_steps;
/** A hip's swing ahead of the mean hip at the contact of its foot, G. */
export const HIP_FORE_AFT = SHAPE.hip_fore_aft;
/** How far the most stretched knee is still bent, radians. */
export const LEAST_KNEE_BEND = SHAPE.least_knee_bend_deg * DEG;
const LIFT_KNOT = SHAPE.lift_at;
const PITCH_KNOT = SHAPE.pitch_at;
/** The step length (in G) at which the figures were fitted. */
const FITTED_STEP = 0.42;

export interface Joint {
  w: number;
  z: number;
}
export interface LegPose {
  readonly hip: Joint;
  readonly knee: Joint;
  readonly ankle: Joint;
  /** Pitch of the foot, radians; 0 flat, positive with the heel up. */
  readonly pitch: number;
}

export interface LegModel {
  /** Step length, G. */
  readonly step: number;
  /** Height of the mean hip at phase f, G. */
  hipHeight(f: number): number;
  pose(f: number): LegPose;
}

const models = new Map<number, LegModel>();

/** The model of a step length, made once. */
export function legModelOf(step: number): LegModel {
  let model = models.get(step);
  if (!model) {
    model = legModel(step);
    models.set(step, model);
  }
  return model;
}

/** @param step step length as a fraction of the leg unit G, 0.2 to 0.6 */
export function legModel(step: number): LegModel {
  const r = step / FITTED_STEP;
  const stride = 2 * step;
  const heelStrike = SHAPE.heel_strike_deg * DEG * Math.sqrt(r);
  const pushOff = FITTED.value.push_off_deg * DEG * pow(r, SHAPE.push_off_exponent);
  const lift = FITTED.value.swing_lift * pow(r, SHAPE.lift_exponent);
  const lowering = SHAPE.lowering * pow(r, SHAPE.lift_exponent);
  const pitchKnot = SHAPE.pitch_deg * DEG * r;
  const pitchSlope = SHAPE.pitch_slope_deg * DEG * r;
  const bob = SHAPE.bob * r * r * r;
  const flat = CONTACT_AHEAD * step;

  const stancePitch = (f: number): number => {
    if (f < HEEL_PIVOT_ENDS) {
      const t = 1 - f / HEEL_PIVOT_ENDS;
      return -heelStrike * t * t;
    }
    if (f <= TOE_PIVOT_STARTS) return 0;
    const t = (f - TOE_PIVOT_STARTS) / (FOOT_OFF - TOE_PIVOT_STARTS);
    return pushOff * t * t * t;
  };
  const stanceAnkle = (f: number): Joint => ankleOverPivot(flat, stancePitch(f));

  // Slopes at both ends of the swing, by a difference small against the cycle and large against rounding.
  const h = 1e-4;
  const off = stanceAnkle(FOOT_OFF);
  const offBefore = stanceAnkle(FOOT_OFF - h);
  const on = stanceAnkle(0);
  const onAfter = stanceAnkle(h);
  const offPitch = stancePitch(FOOT_OFF);
  const swingW = hermite(FOOT_OFF, off.w, (off.w - offBefore.w) / h, 1, on.w + stride, (onAfter.w - on.w) / h);
  const riseZ = hermite(FOOT_OFF, off.z, (off.z - offBefore.z) / h, LIFT_KNOT, LEG.ankle_height + lift, lowering);
  const fallZ = hermite(LIFT_KNOT, LEG.ankle_height + lift, lowering, 1, on.z, (onAfter.z - on.z) / h);
  const pitchUp = hermite(
    FOOT_OFF,
    offPitch,
    (offPitch - stancePitch(FOOT_OFF - h)) / h,
    PITCH_KNOT,
    pitchKnot,
    pitchSlope,
  );
  const pitchDown = hermite(
    PITCH_KNOT,
    pitchKnot,
    pitchSlope,
    1,
    stancePitch(0),
    (stancePitch(h) - stancePitch(0)) / h,
  );

  const ankle = (f: number): Joint =>
    f <= FOOT_OFF ? stanceAnkle(f) : { w: swingW(f), z: f < LIFT_KNOT ? riseZ(f) : fallZ(f) };
  const pitch = (f: number): number => (f <= FOOT_OFF ? stancePitch(f) : f < PITCH_KNOT ? pitchUp(f) : pitchDown(f));

  const hipW = (f: number): number => stride * f + HIP_FORE_AFT * cos(360 * DEG * f);
  const bobbing = (f: number): number => bob * cos(720 * DEG * (f - SHAPE.bob_at));
  const reach2 = legReach2(LEAST_KNEE_BEND);
  let height = Infinity;
  for (let k = 0; k < 512; k++) {
    const f = k / 512;
    const a = ankle(f);
    const dw = hipW(f) - a.w;
    height = Math.min(height, a.z - bobbing(f) + Math.sqrt(Math.max(0, reach2 - dw * dw)));
  }
  const hipHeight = (f: number): number => height + bobbing(f);

  return {
    step,
    hipHeight,
    pose(f: number): LegPose {
      const hip = { w: hipW(f), z: hipHeight(f) };
      const a = ankle(f);
      return { hip, knee: kneeOf(hip, a), ankle: a, pitch: pitch(f) };
    },
  };
}

/** Ankle of a foot that stands with its flat ankle at `flat` and is pitched about heel (pitch < 0) or ball (> 0). */
export function ankleOverPivot(flat: number, pitch: number): Joint {
  if (pitch === 0) return { w: flat, z: LEG.ankle_height };
  const pivot = pitch < 0 ? -LEG.ankle_to_heel : LEG.ankle_to_toe;
  const turned = pitched(-pivot, LEG.ankle_height, pitch);
  return { w: flat + pivot + turned.w, z: turned.z };
}

/** Turns a vector by a pitch: positive lowers the toe against the heel. */
export function pitched(w: number, z: number, pitch: number): Joint {
  const c = cos(pitch);
  const s = sin(pitch);
  return { w: w * c + z * s, z: z * c - w * s };
}

/** Squared distance from hip to ankle with the knee bent by `bend` radians. */
export function legReach2(bend: number): number {
  return LEG.thigh * LEG.thigh + LEG.shank * LEG.shank + 2 * LEG.thigh * LEG.shank * cos(bend);
}

/** Two-link inverse kinematics with the knee in front; a leg that is asked too far points straight at the ankle. */
export function kneeOf(hip: Joint, ankle: Joint): Joint {
  const dw = ankle.w - hip.w;
  const dz = ankle.z - hip.z;
  const d2 = dw * dw + dz * dz;
  const d = Math.sqrt(d2);
  const along = (d2 + LEG.thigh * LEG.thigh - LEG.shank * LEG.shank) / (2 * d);
  const aside = Math.sqrt(Math.max(0, LEG.thigh * LEG.thigh - along * along));
  // The leg points down, so its forward normal is (−dz, dw)/d.
  return { w: hip.w + (dw * along - dz * aside) / d, z: hip.z + (dz * along + dw * aside) / d };
}

/** Cubic through (x0, y0) and (x1, y1) with slopes m0, m1. */
export function hermite(x0: number, y0: number, m0: number, x1: number, y1: number, m1: number): (x: number) => number {
  const width = x1 - x0;
  return (x) => {
    const t = (x - x0) / width;
    const u = 1 - t;
    return u * u * (1 + 2 * t) * y0 + t * u * u * width * m0 + t * t * (3 - 2 * t) * y1 - t * t * u * width * m1;
  };
}
