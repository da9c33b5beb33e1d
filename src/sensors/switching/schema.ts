/** What a user writes about switching: how readings become broken and clear. */
import { z } from 'zod';
import { quantity, wholeNumber } from '../../engine/quantity.js';

export const switchingSchema = z.strictObject({
  nearer_than_m: quantity(
    0.01,
    20,
    'm',
    'Broken while a reading is nearer than this. Without it: nearer than the learnt background minus margin_m.',
  ).optional(),
  margin_m: quantity(
    0.005,
    5,
    'm',
    'How much nearer than the learnt background a reading must be to break the beam; unused with nearer_than_m.',
  ).default(0.15),
  hysteresis_m: quantity(
    0,
    5,
    'm',
    'A broken beam is clear again only from this much beyond the switching point.',
  ).default(0.03),
  median_of: wholeNumber(
    1,
    15,
    'readings',
    'The median of the last so many readings is looked at; an odd number, 1 for the reading itself.',
  ).default(1),
  minimum_samples: wholeNumber(
    1,
    50,
    'readings',
    'So many readings in a row must say the same before the beam breaks.',
  ).default(1),
  off_delay_ms: quantity(
    0,
    60_000,
    'ms',
    'Switch-off delay: the beam is clear only once readings have been clear for this long.',
  ).default(0),
  no_echo: z
    .enum(['clear', 'broken', 'keep'])
    .meta({ description: 'What a reading without echo means: clear, broken, or as before.' })
    .default('clear'),
  learn_readings: wholeNumber(
    1,
    1000,
    'readings',
    'The background is the median of so many first readings; unused with nearer_than_m.',
  ).default(15),
  follow_um: wholeNumber(
    0,
    10_000,
    'µm',
    'While clear, the learnt background follows each reading by at most this much; 0: never.',
  ).default(20),
});
export type SwitchingSettings = z.infer<typeof switchingSchema>;
