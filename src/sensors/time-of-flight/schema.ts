/** What a user writes about an optical time-of-flight ranger. */
import { z } from 'zod';
import { quantity } from '../../engine/quantity.js';
import { rangerCommon } from '../ranger-schema.js';

export const timeOfFlightSchema = z.strictObject({
  kind: z
    .literal('time-of-flight-ranger')
    .meta({ description: 'An optical time-of-flight ranger: light into a cone, and the time until it comes back.' }),
  half_angle_deg: quantity(0.5, 45, 'deg', 'Half-angle of the cone it looks into.').default(12.5),
  timing_budget_ms: quantity(1, 1000, 'ms', 'Time over which one reading gathers light.').default(33),
  blind_m: quantity(0, 0.5, 'm', 'Nearer than this there is no reading.').default(0.03),
  range_m: quantity(
    0.1,
    20,
    'm',
    'Range in the dark to a target of reflectance 0.88, at the timing budget of 33 ms.',
  ).default(3),
  sunlight_halves_at_klx: quantity(0.1, 1000, 'klx', 'Daylight at which the range is halved.').default(10),
  reflectance_least: quantity(
    0.01,
    1,
    'share',
    'Least reflectance of clothing; each body draws its own between least and most.',
  ).default(0.1),
  reflectance_most: quantity(0.01, 1, 'share', 'Greatest reflectance of clothing.').default(0.8),
  jamb_reflectance: quantity(0.01, 1, 'share', 'Reflectance of jambs, lintel and floor.').default(0.7),
  bias_m: quantity(-0.5, 0.5, 'm', 'What every reading is too long by; below 0: too short.').default(0),
  noise_m: quantity(0, 0.5, 'm', 'Standard deviation of a reading near by, at a timing budget of 33 ms.').default(
    0.003,
  ),
  noise_per_m: quantity(0, 0.5, 'm/m', 'Standard deviation that grows with distance, per metre of it.').default(0.005),
  step_m: quantity(0.0001, 0.1, 'm', 'Step of the reading.').default(0.001),
  ...rangerCommon,
});
export type TimeOfFlightRanger = z.infer<typeof timeOfFlightSchema>;
