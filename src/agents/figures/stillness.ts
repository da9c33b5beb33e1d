/** Standing, stopping and turning: judgement throughout, and said to be. */
import type { Figure } from '../../engine/figure.js';
import { NO_SOURCE } from './sources.js';

type Wave = { readonly amplitude_m: number; readonly period_s: number };

export const SWAY_FORWARD: Figure<readonly Wave[]> = {
  id: 'passage.stand.sway.forward',
  value: [
    { amplitude_m: 0.006, period_s: 3.1 },
    { amplitude_m: 0.003, period_s: 1.3 },
  ],
  unit: 'm amplitude, s period',
  used_in: 'swaying to and fro while standing in the doorway',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const SWAY_SIDEWAYS: Figure<readonly Wave[]> = {
  id: 'passage.stand.sway.sideways',
  value: [
    { amplitude_m: 0.025, period_s: 7.3 },
    { amplitude_m: 0.004, period_s: 1.7 },
  ],
  unit: 'm amplitude, s period',
  used_in: 'shifting weight from side to side while standing in the doorway',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const STANCE_SHAPE: Figure<{ readonly ankle_behind: number; readonly knee_bend_deg: number }> = {
  id: 'passage.stand.stance',
  value: { ankle_behind: 0.012, knee_bend_deg: 4 },
  unit: 'leg units, deg',
  used_in: 'how far the ankles are behind the hips of somebody standing, and how far the knees are bent',
  citation: NO_SOURCE,
  status: 'assumption',
};

/** Of somebody standing on one foot's contact: the step that ends a walk, and the one that begins it again. */
export const HALF_STEP: Figure<{ readonly sole_down_at: number; readonly heel_up_at: number; readonly lift: number }> =
  {
    id: 'passage.half_step',
    value: { sole_down_at: 0.3, heel_up_at: 0.55, lift: 0.045 },
    unit: 'shares of the step, leg units',
    used_in: 'stopping and setting out: when the planted heel is down or rises, how high the other foot is lifted',
    citation: NO_SOURCE,
    status: 'assumption',
  };

type TurningStep = { readonly right: number; readonly from: number; readonly to: number; readonly turned: number };
/** `right` is 1 for the foot on the side turned to, 0 for the other. */
export const TURN_STEPS: Figure<readonly TurningStep[]> = {
  id: 'passage.turn.steps',
  value: [
    { right: 1, from: 0.05, to: 0.27, turned: 0.5 },
    { right: 1, from: 0.5, to: 0.72, turned: 1 },
    { right: 0, from: 0.28, to: 0.49, turned: 0.7 },
    { right: 0, from: 0.73, to: 0.97, turned: 1 },
  ],
  unit: 'shares of the turn’s time and angle',
  used_in: 'when each foot steps round, and how far round it is then: two steps a foot',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const TURN: Figure<{ readonly duration_s: number; readonly lift: number }> = {
  id: 'passage.turn.duration',
  value: { duration_s: 1.4, lift: 0.03 },
  unit: 's, leg units',
  used_in: 'half a turn on the spot, and how high the feet are lifted in it',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const TURN_BACK_DEPTH: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'passage.turn_back.depth',
  value: { low: -0.7, high: 0.4 },
  unit: 'm beyond the door plane',
  used_in: 'where somebody who turns back stands, drawn evenly',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const TURN_BACK_PAUSE: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'passage.turn_back.pause',
  value: { low: 0.3, high: 2 },
  unit: 's',
  used_in: 'pause before turning back, drawn evenly',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const LINGER_DEPTH: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'passage.linger.depth',
  value: { low: -0.3, high: 0.3 },
  unit: 'm beyond the door plane',
  used_in: 'where somebody who lingers stands, drawn evenly',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const LINGER_RETURNS: Figure<number> = {
  id: 'passage.linger.returns',
  value: 0.3,
  unit: 'share',
  used_in: 'share of those who linger and then go back where they came from',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const PACE_CHANGE: Figure<{ readonly tilt_sd: number; readonly dip_low: number; readonly dip_high: number }> = {
  id: 'passage.pace.change',
  value: { tilt_sd: 0.05, dip_low: 0, dip_high: 0.12 },
  unit: 'relative change of slowness',
  used_in: 'speeding up or slowing down over the doorway zone, and slowing in the door plane',
  citation: `${NO_SOURCE}; that walkers slow down at openings is published without a figure that could be used (K. Wilmut, A. L. Barnett, Hum. Mov. Sci. 29:289-298, 2010)`,
  status: 'assumption',
};

export const HEADING: Figure<number> = {
  id: 'passage.heading.sd',
  value: 3,
  unit: 'deg, standard deviation',
  used_in: 'how far from straight a walker goes through the opening',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const SIDEWAYS: Figure<number> = {
  id: 'passage.sideways.sd',
  value: 0.06,
  unit: 'share of the width, standard deviation',
  used_in: 'how far from the middle of the opening a walker goes',
  citation: NO_SOURCE,
  status: 'assumption',
};

/** Angles of the shoulder, from hanging: at the lowest the hand is at about the height of the elbow, at the highest of the shoulder. */
export const REACH: Figure<{
  readonly swing_s: number;
  readonly lowest_deg: number;
  readonly highest_deg: number;
  readonly elbow_deg: number;
  readonly right_share: number;
}> = {
  id: 'passage.reach.arm',
  value: { swing_s: 0.5, lowest_deg: 55, highest_deg: 90, elbow_deg: 15, right_share: 0.85 },
  unit: 's, deg, deg, deg, share',
  used_in:
    'reaching through: how long the arm takes up and down, how high it comes, how the elbow is bent, whose it is',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const REACH_HOLD: Figure<{ readonly median: number; readonly sigma: number }> = {
  id: 'passage.reach.hold',
  value: { median: 1, sigma: 0.6 },
  unit: 's; sigma of the logarithm',
  used_in: 'how long an arm stays through the opening, log-normal: a switch, a handle, something handed over',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const REACH_DEPTH: Figure<{
  readonly least_beyond: number;
  readonly most_beyond: number;
  readonly nearest: number;
}> = {
  id: 'passage.reach.depth',
  value: { least_beyond: 0.1, most_beyond: 0.4, nearest: 0.25 },
  unit: 'm',
  used_in: 'how far beyond the door plane the hand comes, drawn evenly, and how near to it the trunk axis may stop',
  citation: NO_SOURCE,
  status: 'assumption',
};
