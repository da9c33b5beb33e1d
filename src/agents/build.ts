/** The sizes and the pace of one body, given age, sex and stature. */
import { PI } from '../engine/arithmetic.js';
import { standardWithin3, uniform } from '../engine/distributions.js';
import { interpolate } from '../engine/interpolate.js';
import type { Stream } from '../engine/stream.js';
import { ARM_RADII, BREADTHS, type Breadth, CHILD_BIACROMIAL, SURVEYED_STATURE } from './figures/breadths.js';
import { CLOTHING, ELBOW } from './figures/manner.js';
import {
  CHILD_HEAD_SHARE,
  CHILD_LEG_SHARE,
  CHILD_SHOULDER_SHARE,
  CHIN_HEIGHT,
  HEAD,
  type Measure,
  PROPORTIONS,
} from './figures/proportions.js';
import { comfortableSpeed, stepLength } from './pace.js';
import type { Person, Sex } from './person.js';
import { GROWN_Y, middleStature, statureVariation } from './stature.js';

/** Draw numbers in a person's stream, after those of population.ts. Never renumber: only add. */
const DRAW = {
  speed: 17,
  step: 18,
  elbow: 19,
  legs: 20,
  shoulderHeight: 21,
  bideltoid: 22,
  chest: 23,
  waist: 24,
  hips: 25,
  legGirth: 26,
  armGirth: 27,
  upperArm: 28,
  forearm: 29,
  hand: 30,
  foot: 31,
  head: 32,
} as const;

/** What is known of a person before the rest is drawn. */
export interface Identity {
  readonly sex: Sex;
  readonly age_y: number;
  readonly stature_m: number;
  /** A speed of their own, which the home's pace leaves alone. */
  readonly speed_mps: number | undefined;
  readonly infant: boolean;
}

/** Draws the rest of a person: a pure function of the stream. */
export function personOf(identity: Identity, stream: Stream, homePace: number): Person {
  const { sex, age_y, stature_m } = identity;
  const scatter = (purpose: number): number => standardWithin3(stream.at(purpose));

  // Breadths: the mean of the age and sex, moved by r × (how far the stature is from its own mean) and by what is the
  // person's own.
  const middle_m = middleStature(sex, age_y);
  const tallness = (stature_m / middle_m - 1) / statureVariation(sex, age_y);
  const scale = (middle_m / SURVEYED_STATURE[sex].value.mean) * narrowness(sex, age_y);
  const breadth = (measure: Breadth, z: number): number => {
    const { mean, sd, r } = BREADTHS[measure][sex].value;
    return scale * Math.max(0.4 * mean, mean + sd * (r * tallness + Math.sqrt(1 - r * r) * z));
  };
  const length = (measure: Measure, z: number): number => {
    const { mean, sd } = PROPORTIONS[measure][sex].value;
    return stature_m * (mean + sd * z);
  };

  const { trunk, limb } = CLOTHING.value;
  const hip = PROPORTIONS.hip_height[sex].value;
  const shoulderShare = shoulderShareAt(age_y);
  const waist = scatter(DRAW.waist);
  const legGirth = scatter(DRAW.legGirth);
  const arms = ARM_RADII[sex].value;
  const armScale = scale * (1 + arms.sd_share * scatter(DRAW.armGirth));
  const calf = breadth('calf_girth', legGirth);
  const chest_m = breadth('chest_depth', scatter(DRAW.chest));
  const waist_m = breadth('waist_depth', waist);
  const foot_m = length('foot', scatter(DRAW.foot));
  const leg_unit_m = stature_m * legShare(age_y) * (1 + (hip.sd / hip.mean) * scatter(DRAW.legs));
  const speed_mps = identity.speed_mps ?? homePace * comfortableSpeed(scatter(DRAW.speed), sex, age_y, leg_unit_m);
  return {
    sex,
    age_y,
    stature_m,
    leg_unit_m,
    shoulder_height_m: shoulderShare * length('shoulder_height', scatter(DRAW.shoulderHeight)),
    chin_height_m: shoulderShare * CHIN_HEIGHT.value * stature_m,
    head_radius_m: headShare(age_y) * (HEAD[sex].value.mean + HEAD[sex].value.sd * scatter(DRAW.head)),
    bideltoid_m: breadth('bideltoid_breadth', scatter(DRAW.bideltoid)) + 2 * trunk,
    chest_depth_m: chest_m + 2 * trunk,
    waist_breadth_m: breadth('waist_breadth', waist) + 2 * trunk,
    waist_depth_m: waist_m + 2 * trunk,
    hip_breadth_m: breadth('hip_breadth', scatter(DRAW.hips)) + 2 * trunk,
    upper_arm_m: length('upper_arm', scatter(DRAW.upperArm)),
    forearm_m: length('forearm', scatter(DRAW.forearm)),
    hand_m: length('hand', scatter(DRAW.hand)),
    foot_m,
    // A capsule has one radius: the mean of its two ends, the knee as thick as the calf.
    thigh_radius_m: (breadth('thigh_girth', legGirth) + calf) / (4 * PI) + limb,
    shank_radius_m: (calf + breadth('ankle_girth', legGirth)) / (4 * PI) + limb,
    upper_arm_radius_m: arms.upper_arm * armScale + limb,
    forearm_radius_m: arms.forearm * armScale + limb,
    elbow_mean_deg: uniform(stream.at(DRAW.elbow), ELBOW.value.low, ELBOW.value.high),
    speed_mps,
    step_m: stepLength(scatter(DRAW.step), speed_mps, age_y, leg_unit_m),
    infant: identity.infant,
  };
}

const SHOULDER_AGES = [...CHILD_BIACROMIAL.value.map((row) => row.age_y), GROWN_Y];
const NARROWNESS: Readonly<Record<Sex, readonly number[]>> = {
  woman: [...CHILD_BIACROMIAL.value.map((row) => row.girls / SURVEYED_STATURE.woman.value.biacromial), 1],
  man: [...CHILD_BIACROMIAL.value.map((row) => row.boys / SURVEYED_STATURE.man.value.biacromial), 1],
};

/** A column of shares by age, as `interpolate` wants it. */
function byAge(figure: { readonly value: readonly { readonly age_y: number; readonly share: number }[] }) {
  const ages = figure.value.map((row) => row.age_y);
  const shares = figure.value.map((row) => row.share);
  return (age_y: number): number => interpolate(ages, shares, age_y);
}
const legShare = byAge(CHILD_LEG_SHARE);
const shoulderShareAt = byAge(CHILD_SHOULDER_SHARE);
const headShare = byAge(CHILD_HEAD_SHARE);

/** Breadth of a child over that of an adult shrunk to the same stature. */
function narrowness(sex: Sex, age_y: number): number {
  return interpolate(SHOULDER_AGES, NARROWNESS[sex], age_y);
}
