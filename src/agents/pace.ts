/** Speed and step length of one person. */
import { pow } from '../engine/arithmetic.js';
import { interpolate } from '../engine/interpolate.js';
import { ADULT_SPEED, CHILD_SPEED, GRAVITY, LEG_LENGTH, STEP_AGE_FACTOR, STEP_LAW } from './figures/pace.js';
import type { Sex } from './person.js';

/** From this age on the adult rows of walking speed hold. */
const ADULT_PACE_Y = 18;

const rowsOf = (sex: Sex) => {
  const rows = ADULT_SPEED[sex].value;
  return {
    ages: rows.map((row) => row.age_y),
    mps: rows.map((row) => row.mps),
    sd_share: rows.map((row) => row.sd_share),
  };
};
const SPEED = { woman: rowsOf('woman'), man: rowsOf('man') };
const FACTOR_AGES = STEP_AGE_FACTOR.value.map((row) => row.age_y);
const FACTORS = STEP_AGE_FACTOR.value.map((row) => row.factor);

/** Comfortable speed, m/s, of somebody `z` standard deviations from the middle. */
export function comfortableSpeed(z: number, sex: Sex, age_y: number, leg_unit_m: number): number {
  if (age_y >= ADULT_PACE_Y) {
    const { ages, mps, sd_share } = SPEED[sex];
    return interpolate(ages, mps, age_y) * (1 + interpolate(ages, sd_share, age_y) * z);
  }
  const { froude_speed, sd_share } = CHILD_SPEED.value;
  return froude_speed * Math.sqrt(GRAVITY.value * LEG_LENGTH.value * leg_unit_m) * (1 + sd_share * z);
}

/** Step length, m, at `speed_mps` (above 0), of somebody `z` standard deviations from the law. */
export function stepLength(z: number, speed_mps: number, age_y: number, leg_unit_m: number): number {
  const { factor, exponent, sd_share } = STEP_LAW.value;
  const leg = LEG_LENGTH.value * leg_unit_m;
  const law = factor * pow(speed_mps / Math.sqrt(GRAVITY.value * leg), exponent) * leg;
  return law * interpolate(FACTOR_AGES, FACTORS, age_y) * (1 + sd_share * z);
}
