/**
 * Breadths, depths and girths of adults in metres. They hardly follow stature: `r` is their correlation with it, the
 * rest of the scatter is the person's own.
 */
import type { Figure } from '../../engine/figure.js';
import type { Sex } from '../person.js';
import { ANSUR, BERKELEY } from './sources.js';

export type BreadthFigure = Figure<{ readonly mean: number; readonly sd: number; readonly r: number }>;
export type Breadth =
  | 'bideltoid_breadth'
  | 'chest_depth'
  | 'waist_depth'
  | 'waist_breadth'
  | 'hip_breadth'
  | 'thigh_girth'
  | 'calf_girth'
  | 'ankle_girth';

type Row = readonly [mean: number, sd: number, r: number];
/** Where r was not worked out from persons it follows from the scatter of the ratio to stature, or is taken as 0.3. */
const ROWS: Readonly<Record<Breadth, { used_in: string; note?: string; woman: Row; man: Row }>> = {
  bideltoid_breadth: {
    used_in: 'breadth across the shoulders',
    woman: [0.4503, 0.0287, 0.36],
    man: [0.5104, 0.0325, 0.31],
  },
  chest_depth: { used_in: 'depth of the chest', woman: [0.2474, 0.0273, 0.23], man: [0.2538, 0.0262, 0.22] },
  waist_depth: {
    used_in: 'depth of the waist',
    note: 'soldiers: civilians are deeper at the waist',
    woman: [0.213, 0.0314, 0.15],
    man: [0.2378, 0.0347, 0.16],
  },
  waist_breadth: {
    used_in: 'breadth of the waist',
    note: 'r assumed to be that of waist depth',
    woman: [0.2999, 0.033, 0.15],
    man: [0.3264, 0.0347, 0.16],
  },
  hip_breadth: {
    used_in: 'breadth of the hips, standing',
    note: 'r from the scatter of hip breadth over stature: (a² + b² − c²)/2ab, the three coefficients of variation',
    woman: [0.3538, 0.0267, 0.38],
    man: [0.3457, 0.0242, 0.39],
  },
  thigh_girth: {
    used_in: 'radius of the thigh',
    note: 'r 0.3 assumed',
    woman: [0.6161, 0.0558, 0.3],
    man: [0.6251, 0.0585, 0.3],
  },
  calf_girth: {
    used_in: 'radius of the knee and the shank',
    note: 'r 0.3 assumed',
    woman: [0.3733, 0.0285, 0.3],
    man: [0.3923, 0.0297, 0.3],
  },
  ankle_girth: {
    used_in: 'radius of the shank',
    note: 'r 0.3 assumed',
    woman: [0.2157, 0.0149, 0.3],
    man: [0.2293, 0.0146, 0.3],
  },
};

export const BREADTHS: Readonly<Record<Breadth, Readonly<Record<Sex, BreadthFigure>>>> = {
  bideltoid_breadth: bySex('bideltoid_breadth'),
  chest_depth: bySex('chest_depth'),
  waist_depth: bySex('waist_depth'),
  waist_breadth: bySex('waist_breadth'),
  hip_breadth: bySex('hip_breadth'),
  thigh_girth: bySex('thigh_girth'),
  calf_girth: bySex('calf_girth'),
  ankle_girth: bySex('ankle_girth'),
};

function bySex(measure: Breadth): Readonly<Record<Sex, BreadthFigure>> {
  const { used_in, note } = ROWS[measure];
  const figure = (sex: Sex): BreadthFigure => {
    const [mean, sd, r] = ROWS[measure][sex];
    return {
      id: `people.${measure}.${sex}`,
      value: { mean, sd, r },
      unit: 'm; r is the correlation with stature',
      used_in,
      citation: ANSUR,
      status: 'computed',
      ...(note === undefined ? {} : { note }),
    };
  };
  return { woman: figure('woman'), man: figure('man') };
}

/** Statures the breadths above belong to. */
export const SURVEYED_STATURE: Readonly<
  Record<Sex, Figure<{ readonly mean: number; readonly sd: number; readonly biacromial: number }>>
> = {
  woman: surveyed('woman', 1.6285, 0.0642, 0.2244),
  man: surveyed('man', 1.7562, 0.0686, 0.2368),
};

function surveyed(
  sex: Sex,
  mean: number,
  sd: number,
  biacromial: number,
): Figure<{ readonly mean: number; readonly sd: number; readonly biacromial: number }> {
  return {
    id: `people.surveyed_stature.${sex}`,
    value: { mean, sd, biacromial },
    unit: 'm; biacromial breadth as a share of stature',
    used_in: 'how far a body is from the stature that the breadths were measured at',
    citation: ANSUR,
    status: 'computed',
  };
}

/** Thinner arms than legs; circumferences flexed and at the wrist, halved into one radius per part. */
export const ARM_RADII: Readonly<
  Record<Sex, Figure<{ readonly upper_arm: number; readonly forearm: number; readonly sd_share: number }>>
> = {
  woman: armRadii('woman', 0.045, 0.033),
  man: armRadii('man', 0.051, 0.039),
};

function armRadii(
  sex: Sex,
  upper_arm: number,
  forearm: number,
): Figure<{ readonly upper_arm: number; readonly forearm: number; readonly sd_share: number }> {
  return {
    id: `people.arm_radii.${sex}`,
    value: { upper_arm, forearm, sd_share: 0.09 },
    unit: 'm; scatter as a share',
    used_in: 'radii of upper arm and forearm',
    citation: 'arm circumferences of adults, source not at hand',
    status: 'from memory',
  };
}

type ShoulderRow = { readonly age_y: number; readonly boys: number; readonly girls: number };
/** Narrower than adults of the same stature; every breadth and girth of a child is scaled like its shoulders. */
export const CHILD_BIACROMIAL: Figure<readonly ShoulderRow[]> = {
  id: 'people.child_biacromial',
  value: [
    { age_y: 8, boys: 0.218, girls: 0.216 },
    { age_y: 10, boys: 0.216, girls: 0.217 },
    { age_y: 12, boys: 0.216, girls: 0.216 },
    { age_y: 14, boys: 0.218, girls: 0.215 },
    { age_y: 16, boys: 0.224, girls: 0.218 },
    { age_y: 18, boys: 0.229, girls: 0.22 },
  ],
  unit: 'share of stature',
  used_in: 'breadths, depths and girths of children, against the adult share',
  citation: BERKELEY,
  status: 'computed',
  note: 'that depths and girths shrink like the shoulders, and that children under 8 have the shares of 8, is assumed; adult shares from 20 years',
};
