/** Stature by age and sex: the growth reference to 20 years, the adult survey from then on. */
import { pow } from '../engine/arithmetic.js';
import { interpolate } from '../engine/interpolate.js';
import { SURVEYED_STATURE } from './figures/breadths.js';
import { ADULT_STATURE, CHILD_STATURE, UNKNOWN_AGE } from './figures/stature.js';
import type { Sex } from './person.js';

/** From this age on the adult survey holds. */
export const GROWN_Y = 20;

interface GrowthTable {
  readonly ages: readonly number[];
  readonly l: readonly number[];
  readonly m: readonly number[];
  readonly s: readonly number[];
}
const GROWTH: Readonly<Record<Sex, GrowthTable>> = { woman: growthTable('woman'), man: growthTable('man') };

function growthTable(sex: Sex): GrowthTable {
  const rows = CHILD_STATURE[sex].value;
  return {
    ages: rows.map((row) => row.age_y),
    l: rows.map((row) => row.l),
    m: rows.map((row) => row.m_cm / 100),
    s: rows.map((row) => row.s),
  };
}

/** Stature in metres of somebody `z` standard deviations from the middle of their age and sex. */
export function statureAt(z: number, sex: Sex, age_y: number): number {
  if (age_y >= GROWN_Y) return ADULT_STATURE[sex].value.mean + ADULT_STATURE[sex].value.sd * z;
  const table = GROWTH[sex];
  const l = interpolate(table.ages, table.l, age_y);
  const m = interpolate(table.ages, table.m, age_y);
  const s = interpolate(table.ages, table.s, age_y);
  return m * pow(1 + l * s * z, 1 / l);
}

/**
 * Middle and coefficient of variation of the statures that a body's breadths are judged against: the survey that
 * measured the breadths for adults, the growth reference for children.
 */
export function middleStature(sex: Sex, age_y: number): number {
  return age_y >= GROWN_Y ? SURVEYED_STATURE[sex].value.mean : interpolate(GROWTH[sex].ages, GROWTH[sex].m, age_y);
}
export function statureVariation(sex: Sex, age_y: number): number {
  const surveyed = SURVEYED_STATURE[sex].value;
  return age_y >= GROWN_Y ? surveyed.sd / surveyed.mean : interpolate(GROWTH[sex].ages, GROWTH[sex].s, age_y);
}

/** Smaller people of unknown age are taken for children: so many standard deviations below the mean of women. */
const SMALLEST_ADULT_M = ADULT_STATURE.woman.value.mean - UNKNOWN_AGE.value.small_sd * ADULT_STATURE.woman.value.sd;

/** Age for a stature alone: the one whose median it is for a child, {@link UNKNOWN_AGE} for an adult. */
export function ageOfStature(stature_m: number, sex: Sex): number {
  if (stature_m >= SMALLEST_ADULT_M) return UNKNOWN_AGE.value.adult_y;
  return interpolate(GROWTH[sex].m, GROWTH[sex].ages, stature_m);
}
