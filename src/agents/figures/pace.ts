/** How fast people walk and how long their steps are, at the comfortable pace of the laboratory. */
import type { Figure } from '../../engine/figure.js';
import type { Sex } from '../person.js';
import { ANSUR, NHANES, NO_SOURCE, PINZONE, SCHWARTZ, WALKWAY } from './sources.js';

type PaceRow = { readonly age_y: number; readonly mps: number; readonly sd_share: number };

/**
 * Speed is cadence × step length of the compiled rows: their own speed column is a pace band. Its scatter to 69 years
 * is the root of the summed squared scatters of cadence and step length; from 70 years it is published.
 */
export const ADULT_SPEED: Readonly<Record<Sex, Figure<readonly PaceRow[]>>> = {
  man: adultSpeed('man', [
    [23.5, 1.33, 0.122],
    [34.5, 1.359, 0.114],
    [54.5, 1.373, 0.115],
    [64.5, 1.305, 0.133],
    [72, 1.173, 0.137],
    [82, 1.116, 0.152],
    [87, 1.003, 0.218],
  ]),
  woman: adultSpeed('woman', [
    [23.5, 1.365, 0.11],
    [34.5, 1.357, 0.133],
    [54.5, 1.342, 0.125],
    [64.5, 1.267, 0.136],
    [72, 1.149, 0.172],
    [82, 1.008, 0.149],
    [87, 0.972, 0.204],
  ]),
};

function adultSpeed(sex: Sex, rows: readonly (readonly [number, number, number])[]): Figure<readonly PaceRow[]> {
  return {
    id: `people.speed.adult.${sex}`,
    value: rows.map(([age_y, mps, sd_share]) => ({ age_y, mps, sd_share })),
    unit: 'age in years (middle of the band), m/s, standard deviation as a share',
    used_in: 'comfortable walking speed from 18 years',
    citation: WALKWAY,
    status: 'second-hand',
    note: 'cadence × step length; scatter from those of both to 69 years, published from 70',
  };
}

/** To 17 years: v = v* √(g L), L the leg length. */
export const CHILD_SPEED: Figure<{ readonly froude_speed: number; readonly sd_share: number }> = {
  id: 'people.speed.child',
  value: { froude_speed: 0.429, sd_share: 0.12 },
  unit: 'v / √(g × leg length); standard deviation as a share',
  used_in: 'comfortable walking speed to 17 years',
  citation: `${SCHWARTZ} (mean); ${PINZONE} (scatter)`,
  status: 'computed',
  note: 'the two laboratories scatter by 0.153 and 0.104 of their mean; 0.12 lies between',
};

/** Step over leg length = factor × v*^exponent. */
export const STEP_LAW: Figure<{ readonly factor: number; readonly exponent: number; readonly sd_share: number }> = {
  id: 'people.step.law',
  value: { factor: 1.093, exponent: 0.432, sd_share: 0.058 },
  unit: 'step / leg length at v / √(g × leg length); standard deviation as a share',
  used_in: 'step length at the walking speed',
  citation: SCHWARTZ,
  status: 'computed',
  note: 'power law through the published slow, free and fast rows (0.290 0.640, 0.429 0.760, 0.560 0.850); scatter 0.044/0.760 of the free row',
};

/**
 * Adults step longer than the children's law, and less so with age: step length of the compiled rows over the law at
 * their speed and leg length, mean of men and women. 1 in the middle of the youngest row that the law covers.
 */
export const STEP_AGE_FACTOR: Figure<readonly { readonly age_y: number; readonly factor: number }[]> = {
  id: 'people.step.age_factor',
  value: [
    { age_y: 15.5, factor: 1 },
    { age_y: 23.5, factor: 1.074 },
    { age_y: 34.5, factor: 1.066 },
    { age_y: 54.5, factor: 1.075 },
    { age_y: 64.5, factor: 1.046 },
    { age_y: 72, factor: 1.019 },
    { age_y: 82, factor: 0.976 },
    { age_y: 87, factor: 0.95 },
  ],
  unit: 'step length over the law',
  used_in: 'step length of adults',
  citation: `${WALKWAY}; ${NHANES}; ${SCHWARTZ}`,
  status: 'computed',
};

export const LEG_LENGTH: Figure<number> = {
  id: 'people.leg_length',
  value: 0.516,
  unit: 'share of the leg unit',
  used_in: 'leg length in the laws of speed and step',
  citation: ANSUR,
  status: 'computed',
  note: 'trochanterion height over stature, mean of women (0.5190) and men (0.5128)',
};

export const HOME_PACE: Figure<number> = {
  id: 'people.home_pace',
  value: 0.7,
  unit: 'share of the comfortable pace',
  used_in: 'default of home_pace',
  citation: `${NO_SOURCE}; daily-life speed is lower than in the laboratory (Sci. Rep. 9, 2019, doi:10.1038/s41598-019-39695-0), by how much in a house no source was found`,
  status: 'assumption',
};

export const GRAVITY: Figure<number> = {
  id: 'people.gravity',
  value: 9.81,
  unit: 'm/s²',
  used_in: 'the laws of speed and step',
  citation: SCHWARTZ,
  status: 'published',
};
