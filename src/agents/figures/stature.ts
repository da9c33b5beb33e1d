/** How tall people are, by age and sex. Barefoot statures; soles are left out, indoors few wear thick ones. */
import type { Figure } from '../../engine/figure.js';
import type { Sex } from '../person.js';
import { CDC00, NHANES, NO_SOURCE } from './sources.js';

const USED = 'stature of people drawn by age and sex';

/** From 20 years. Normal, cut at three standard deviations. */
export const ADULT_STATURE: Readonly<Record<Sex, Figure<{ readonly mean: number; readonly sd: number }>>> = {
  woman: {
    id: 'people.stature.adult.woman',
    value: { mean: 1.6143, sd: 0.0706 },
    unit: 'm',
    used_in: USED,
    citation: NHANES,
    status: 'computed',
    note: 'women of 20 years and over, n 2756',
  },
  man: {
    id: 'people.stature.adult.man',
    value: { mean: 1.7532, sd: 0.0763 },
    unit: 'm',
    used_in: USED,
    citation: NHANES,
    status: 'computed',
    note: 'men of 20 years and over, n 2592',
  },
};

/** One row of a growth reference: stature at z is `m_cm (1 + l s z)^(1/l)`. */
export type LmsRow = { readonly age_y: number; readonly l: number; readonly m_cm: number; readonly s: number };

/** From 2 to 20 years; L, M and S on straight lines between the rows. */
export const CHILD_STATURE: Readonly<Record<Sex, Figure<readonly LmsRow[]>>> = {
  man: childTable('boy', [
    [2, 0.941523967, 86.45220101, 0.040321528],
    [3, -0.390918369, 95.27359106, 0.04053412],
    [4, 0.827636736, 102.5104735, 0.041344257],
    [5, 1.266367398, 109.1751441, 0.042593311],
    [6, 1.137442868, 115.6608862, 0.043673359],
    [8, 0.455267507, 128.1237104, 0.045127088],
    [10, 0.505564115, 138.8234114, 0.047610108],
    [12, 0.420919142, 149.3088178, 0.049947823],
    [14, 1.670433444, 164.1418486, 0.04894519],
    [16, 2.113023423, 173.6100518, 0.043085685],
    [18, 1.399999187, 176.1850208, 0.04064364],
    [20, 1.167279219, 176.8492322, 0.040369574],
  ]),
  woman: childTable('girl', [
    [2, 1.07244896, 84.97555512, 0.040791394],
    [3, 0.54198094, 94.21335709, 0.042017509],
    [4, 0.225705996, 101.033927, 0.043259907],
    [5, -0.057729947, 107.9566031, 0.044276588],
    [6, -0.219069129, 115.0054978, 0.044963636],
    [8, -0.079283065, 127.8262759, 0.045968169],
    [10, 0.284748919, 138.2111552, 0.048704503],
    [12, 1.303044695, 151.4865636, 0.048599314],
    [14, 0.95657215, 160.4776996, 0.041022401],
    [16, 0.941145943, 162.5689958, 0.039820663],
    [18, 1.047571238, 163.1307866, 0.039687311],
    [20, 1.108046193, 163.338251, 0.039636316],
  ]),
};

function childTable(
  who: string,
  rows: readonly (readonly [number, number, number, number])[],
): Figure<readonly LmsRow[]> {
  return {
    id: `people.stature.${who}`,
    value: rows.map(([age_y, l, m_cm, s]) => ({ age_y, l, m_cm, s })),
    unit: 'age in years, M in cm',
    used_in: USED,
    citation: CDC00,
    status: 'published',
    note: 'stature at z is M (1 + L S z)^(1/L); straight lines between the rows',
  };
}

export const UNKNOWN_AGE: Figure<{ readonly adult_y: number; readonly small_sd: number }> = {
  id: 'people.unknown_age',
  value: { adult_y: 40, small_sd: 3 },
  unit: 'years; standard deviations below the mean of women',
  used_in: 'age of a table’s adults without one; whoever is smaller is taken for the child whose median it is',
  citation: NO_SOURCE,
  status: 'assumption',
};
