/** What a pose is made of. */
import { LEG_UNIT_LENGTHS } from '../figures/proportions.js';

/** The moving parts of a person. Several capsules may ride on one part: three of the trunk, the head, an infant. */
export const PART = {
  trunk: 0,
  thighR: 1,
  shankR: 2,
  footR: 3,
  thighL: 4,
  shankL: 5,
  footL: 6,
  upperArmR: 7,
  forearmR: 8,
  upperArmL: 9,
  forearmL: 10,
  /** What rolls along with a walker: goes as far as the trunk, on the floor, without sway or bob. */
  carriage: 11,
} as const;

/** Hip height of somebody standing upright with straight legs, G: where offsets of the upper body are measured from. */
export const UPRIGHT_HIP =
  LEG_UNIT_LENGTHS.value.thigh + LEG_UNIT_LENGTHS.value.shank + LEG_UNIT_LENGTHS.value.ankle_height;
