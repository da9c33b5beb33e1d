/** What a user writes about what installing costs: prices of parts, and how long work takes. */
import { z } from 'zod';
import { quantity } from '../engine/quantity.js';

/** Parts that are no sensor's and no controller's own; sensors and controllers go by their names and kinds. */
export const PARTS = [
  'reflector',
  'controller',
  'power-supply',
  'cable-per-metre',
  'raceway-per-metre',
  'mounting',
  'adhesive-mounting',
] as const;
export type Part = (typeof PARTS)[number];

const priceSchema = z.strictObject({
  part: z
    .string()
    .min(1)
    .max(40)
    .meta({
      description: `A sensor's name or kind, a controller's name, or one of ${PARTS.join(', ')}.`,
    }),
  price: quantity(0, 1e6, 'currency', 'Price of one, or of one metre; taken to a hundredth.'),
});

const workSchema = z.strictObject({
  hour_rate: quantity(0, 1e5, 'currency', 'What an hour of work costs; without it, work is hours only.').optional(),
  minutes_per_hole: quantity(0, 600, 'min', 'Measuring, drilling and cleaning one hole.').optional(),
  minutes_per_metre: quantity(0, 600, 'min', 'Laying one metre of cable.').optional(),
  minutes_per_raceway_metre: quantity(0, 600, 'min', 'Cutting and sticking one metre of raceway.').optional(),
  minutes_per_sensor: quantity(0, 600, 'min', 'Fixing, aiming and connecting one sensor.').optional(),
  minutes_per_controller: quantity(0, 6000, 'min', 'Putting up one controller with its power supply.').optional(),
});

export const effortKeys = {
  currency: z
    .string()
    .min(1)
    .max(12)
    .optional()
    .meta({ description: 'What prices are in; any text, printed behind amounts.' }),
  prices: z
    .array(priceSchema)
    .max(200)
    .optional()
    .meta({ description: 'Your own prices; made-up ones stand in for parts without one, and are marked.' }),
  work: workSchema.optional().meta({ description: 'How long work takes; assumptions stand in for what is left out.' }),
};
