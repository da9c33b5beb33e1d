/** Heights and lengths as shares of stature, each with the scatter from person to person. */
import type { Figure } from '../../engine/figure.js';
import type { Sex } from '../person.js';
import { ANSUR, BERKELEY, DRILLIS, HAN04, NO_SOURCE } from './sources.js';

export type Share = { readonly mean: number; readonly sd: number };
export type ShareFigure = Figure<Share>;
export type Measure = 'shoulder_height' | 'hip_height' | 'upper_arm' | 'forearm' | 'hand' | 'foot';

/** Mean and standard deviation of each person's own ratio to stature: women, men. */
const RATIOS: Readonly<Record<Measure, { used_in: string; woman: Share; man: Share }>> = {
  shoulder_height: {
    used_in: 'height of the shoulder joints (acromion)',
    woman: { mean: 0.8198, sd: 0.0087 },
    man: { mean: 0.8203, sd: 0.0096 },
  },
  hip_height: {
    used_in: 'scatter of the leg unit; leg length in the laws of pace (trochanter)',
    woman: { mean: 0.519, sd: 0.0144 },
    man: { mean: 0.5128, sd: 0.0152 },
  },
  upper_arm: {
    used_in: 'shoulder to elbow of an arm that carries an infant; swinging arms have the mean (gait.arm)',
    woman: { mean: 0.1911, sd: 0.0065 },
    man: { mean: 0.1909, sd: 0.0061 },
  },
  forearm: {
    used_in: 'elbow to wrist of an arm that carries an infant; swinging arms have the mean (gait.arm)',
    woman: { mean: 0.1482, sd: 0.0068 },
    man: { mean: 0.1525, sd: 0.0061 },
  },
  hand: {
    used_in: 'wrist to fingertip, drawn for each person; arms have the mean, half closed (gait.arm)',
    woman: { mean: 0.1112, sd: 0.0047 },
    man: { mean: 0.1101, sd: 0.0042 },
  },
  foot: {
    used_in: 'heel to toe, drawn for each person; feet have the mean (gait.foot)',
    woman: { mean: 0.1513, sd: 0.0053 },
    man: { mean: 0.1544, sd: 0.0052 },
  },
};

export const PROPORTIONS: Readonly<Record<Measure, Readonly<Record<Sex, ShareFigure>>>> = {
  shoulder_height: bySex('shoulder_height'),
  hip_height: bySex('hip_height'),
  upper_arm: bySex('upper_arm'),
  forearm: bySex('forearm'),
  hand: bySex('hand'),
  foot: bySex('foot'),
};

function bySex(measure: Measure): Readonly<Record<Sex, ShareFigure>> {
  const figure = (sex: Sex): ShareFigure => ({
    id: `people.${measure}.${sex}`,
    value: { mean: RATIOS[measure][sex].mean, sd: RATIOS[measure][sex].sd },
    unit: 'share of stature',
    used_in: RATIOS[measure].used_in,
    citation: ANSUR,
    status: 'computed',
  });
  return { woman: figure('woman'), man: figure('man') };
}

/** The leg model's lengths in leg units; an adult's leg unit is the stature. */
export const LEG_UNIT_LENGTHS: Figure<{
  readonly thigh: number;
  readonly shank: number;
  readonly ankle_height: number;
}> = {
  id: 'people.leg.lengths',
  value: { thigh: 0.245, shank: 0.246, ankle_height: 0.039 },
  unit: 'share of the leg unit',
  used_in: 'hip to knee, knee to ankle, ankle above the sole',
  citation: DRILLIS,
  status: 'second-hand',
};

/** Children's legs are short for their stature: leg unit over stature. */
export const CHILD_LEG_SHARE: Figure<readonly { readonly age_y: number; readonly share: number }[]> = {
  id: 'people.leg.child_share',
  value: [
    { age_y: 2, share: 0.895 },
    { age_y: 4, share: 0.92 },
    { age_y: 8, share: 0.97 },
    { age_y: 14, share: 1 },
  ],
  unit: 'leg unit / stature',
  used_in: 'leg length of children',
  citation: `${HAN04}; ${BERKELEY}`,
  status: 'computed',
  note: 'thigh plus lower leg over height, against 11-20 years: 0.86 under 5, 0.95 at 5-10 (Han); height less sitting height over height at 8 years, against 18: 0.97 boys, 0.98 girls (Berkeley); rounded between the two, on a straight line to 2 years',
};

/** Children's heads are large: where the shoulder and the chin are. */
export const CHILD_SHOULDER_SHARE: Figure<readonly { readonly age_y: number; readonly share: number }[]> = {
  id: 'people.shoulder_height.child_share',
  value: [
    { age_y: 2, share: 0.935 },
    { age_y: 4, share: 0.95 },
    { age_y: 8, share: 0.98 },
    { age_y: 14, share: 1 },
  ],
  unit: "child's shoulder height / stature over the adult's",
  used_in: 'shoulder and chin height of children',
  citation: 'shoulder heights of children, source not at hand',
  status: 'from memory',
};

export const CHIN_HEIGHT: Figure<number> = {
  id: 'people.chin_height',
  value: 0.87,
  unit: 'share of stature',
  used_in: 'lower end of the head',
  citation: DRILLIS,
  status: 'from memory',
};

export const HEAD: Readonly<Record<Sex, ShareFigure>> = {
  woman: head('woman', 0.084, 0.003),
  man: head('man', 0.088, 0.003),
};

function head(sex: Sex, mean: number, sd: number): ShareFigure {
  return {
    id: `people.head_radius.${sex}`,
    value: { mean, sd },
    unit: 'm',
    used_in: 'radius of the head',
    citation: 'a quarter of head length plus head breadth of adults, source not at hand',
    status: 'from memory',
  };
}

export const CHILD_HEAD_SHARE: Figure<readonly { readonly age_y: number; readonly share: number }[]> = {
  id: 'people.head_radius.child_share',
  value: [
    { age_y: 2, share: 0.9 },
    { age_y: 4, share: 0.93 },
    { age_y: 8, share: 0.95 },
    { age_y: 16, share: 1 },
  ],
  unit: "child's head radius over the adult's",
  used_in: 'radius of the head of children',
  citation: 'the head is nearly grown at four years, source not at hand',
  status: 'from memory',
};

export const FOOT_RADIUS: Figure<number> = {
  id: 'people.foot_radius',
  value: 0.017,
  unit: 'share of the leg unit',
  used_in: 'half the thickness of the foot between heel and toe',
  citation: NO_SOURCE,
  status: 'assumption',
  note: 'about 3 cm either way at an adult stature: between the toes and the instep, a sock or thin shoe included',
};

export const NECK_ROOT: Figure<number> = {
  id: 'people.neck_root',
  value: 0.0404,
  unit: 'share of stature',
  used_in: 'how far the root of the neck (seventh cervical vertebra) is above the shoulders',
  citation: ANSUR,
  status: 'computed',
  note: 'mean cervicale less mean acromial height over mean stature: 0.0436 men, 0.0372 women; their mean',
};

export const NECK_SHARE: Figure<number> = {
  id: 'people.neck_radius',
  value: 0.75,
  unit: 'share of the head’s radius',
  used_in: 'thickness of the neck',
  citation: 'necks of about 0.38 m round under heads of about 0.57 m round',
  status: 'from memory',
};
