/** Built-in figures about time-of-flight rangers: what a scenario may leave out, and what it can't set. */
import type { Figure } from '../../engine/figure.js';
import { timeOfFlightSchema } from './schema.js';

/** Targets this near to each other blur into one. */
export const MERGE: Figure<number> = {
  id: 'sensor.time_of_flight.merge',
  value: 0.3,
  unit: 'm',
  used_in: 'how far apart two targets must be to be told apart; nearer ones are read as their weighted mean',
  citation: 'no source: a light pulse of some 2 ns is 0.3 m of range long (c · 2 ns / 2)',
  status: 'assumption',
};

export const RANGE_REFLECTANCE: Figure<number> = {
  id: 'sensor.time_of_flight.range_reflectance',
  value: 0.88,
  unit: 'share',
  used_in: 'reflectance of the target that range_m is stated for: white card',
  citation: 'no source',
  status: 'common practice',
};

export const RANGE_BUDGET: Figure<number> = {
  id: 'sensor.time_of_flight.range_budget',
  value: 33,
  unit: 'ms',
  used_in: 'timing budget that range_m, noise_m and noise_per_m are stated for',
  citation: 'no source',
  status: 'common practice',
};

export function timeOfFlightFigures(): Figure[] {
  const defaults = timeOfFlightSchema.parse({ kind: 'time-of-flight-ranger' });
  const assumed = (id: string, value: number, unit: string, used_in: string, citation = 'no source'): Figure => ({
    id: `sensor.time_of_flight.${id}`,
    value,
    unit,
    used_in,
    citation,
    status: 'assumption',
  });
  return [
    assumed('half_angle', defaults.half_angle_deg, 'deg', 'cone of a ranger that states none'),
    assumed('timing_budget', defaults.timing_budget_ms, 'ms', 'time over which one reading gathers light'),
    assumed('blind', defaults.blind_m, 'm', 'nearer than this there is no reading'),
    assumed('range', defaults.range_m, 'm', 'range in the dark to white card'),
    assumed(
      'sunlight',
      defaults.sunlight_halves_at_klx,
      'klx',
      'daylight at which the range is halved',
      'no source; the law taken, range / (1 + light / this), is an assumption too',
    ),
    assumed(
      'clothing',
      defaults.reflectance_least,
      'share',
      'least reflectance of clothing in the infrared; each body draws its own',
    ),
    assumed('clothing_most', defaults.reflectance_most, 'share', 'greatest reflectance of clothing in the infrared'),
    assumed('jamb', defaults.jamb_reflectance, 'share', 'reflectance of jambs, lintel and floor'),
    assumed('noise', defaults.noise_m, 'm', 'standard deviation of a reading near by'),
    assumed('noise_per_m', defaults.noise_per_m, 'm/m', 'how much it grows with distance'),
    assumed('step', defaults.step_m, 'm', 'step of the reading'),
    assumed('bias', defaults.bias_m, 'm', 'what every reading is too long by'),
    MERGE,
    RANGE_REFLECTANCE,
    RANGE_BUDGET,
  ];
}
