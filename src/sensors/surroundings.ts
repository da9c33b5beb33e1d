/** Air and light in the house: what carries sound, and what blinds optics. */
import { z } from 'zod';
import { quantity } from '../engine/quantity.js';

export const surroundingsSchema = z.strictObject({
  temperature_c: quantity(-20, 50, '°C', 'Real temperature of the air: decides the speed of sound.').default(20),
  humidity_percent: quantity(1, 100, '%', 'Relative humidity: decides how much sound the air absorbs.').default(50),
  pressure_kpa: quantity(50, 110, 'kPa', 'Air pressure.').default(101.325),
  sunlight_klx: quantity(
    0,
    120,
    'klx',
    'Daylight on what optical rangers look at: 0 in the dark, some 0.5 in a bright room, 100 in full sun.',
  ).default(0.2),
});
export type Surroundings = z.infer<typeof surroundingsSchema>;
