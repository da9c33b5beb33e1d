/** One drawn person: the sizes a body is built from and the pace it walks at. */

/** Girls and boys included: the survey tables go by sex and age. */
export type Sex = 'woman' | 'man';

/** Lengths in metres; breadths, depths and radii include clothing, stature and heights don't. */
export interface Person {
  readonly sex: Sex;
  readonly age_y: number;
  readonly stature_m: number;
  /** What the leg model scales with: 0.516 of it is the leg length. An average adult's is the stature. */
  readonly leg_unit_m: number;
  /** Height of the acromion. */
  readonly shoulder_height_m: number;
  /** Lower end of the head. */
  readonly chin_height_m: number;
  readonly head_radius_m: number;
  /** Breadth across the shoulders, muscles included. */
  readonly bideltoid_m: number;
  readonly chest_depth_m: number;
  readonly waist_breadth_m: number;
  readonly waist_depth_m: number;
  readonly hip_breadth_m: number;
  readonly upper_arm_m: number;
  readonly forearm_m: number;
  readonly hand_m: number;
  /** Heel to toe. */
  readonly foot_m: number;
  /** Mean along the thigh, from its top to the knee. */
  readonly thigh_radius_m: number;
  /** Mean along the shank, from the calf to the ankle. */
  readonly shank_radius_m: number;
  readonly upper_arm_radius_m: number;
  readonly forearm_radius_m: number;
  /** Mean flexion of the elbow while walking, degrees. */
  readonly elbow_mean_deg: number;
  /** Undisturbed walking speed here, the home's pace included. */
  readonly speed_mps: number;
  /** Step length at that speed. */
  readonly step_m: number;
  /** Carries an infant on the arm. */
  readonly infant: boolean;
}
