/** The shape of figures.json, checked when a folder comes back from outside. */
import { z } from 'zod';
import type { Figures } from '../score/figures.js';
import { estimateSchema } from '../score/metrics-schema.js';

const MAX_POINTS = 1_000_000;
const numbers = z.array(z.number()).max(MAX_POINTS);
const text = z.string().max(200);

const bands = { clock_h: numbers, q05: numbers, q25: numbers, q50: numbers, q75: numbers, q95: numbers };
const driftSchema = z
  .strictObject({ door: text, logic: text, ...bands })
  .refine(sameLength, 'expected lists of one length');
const roomDriftSchema = z
  .strictObject({ room: text, logic: text, ledger: text, ...bands })
  .refine(sameLength, 'expected lists of one length');

const survivalSchema = z
  .strictObject({
    room: text,
    logic: text,
    ledger: text,
    time_h: numbers,
    share: numbers,
    low: numbers,
    high: numbers,
  })
  .refine(sameLength, 'expected lists of one length');

const hourlySchema = z
  .strictObject({
    door: text,
    day: numbers,
    hour: numbers,
    forward: numbers,
    backward: numbers,
    covered_h: numbers,
  })
  .refine(sameLength, 'expected lists of one length');

const roomSchema = z
  .strictObject({ room: text, logic: text, ledger: text, time_h: numbers, truth: numbers, counted: numbers })
  .refine(sameLength, 'expected lists of one length');

const silhouetteSchema = z.strictObject({
  who: text,
  stature_m: z.number().min(0).max(10),
  capsules: z
    .array(
      z.strictObject({
        x0: z.number(),
        z0: z.number(),
        x1: z.number(),
        z1: z.number(),
        radius: z.number().min(0).max(10),
      }),
    )
    .max(200),
});

const clothingSchema = z.strictObject({
  what: z.enum(['least', 'as drawn', 'most']),
  replicates: z.int().min(1),
  wrong_per_100: estimateSchema,
});

const activitySchema = z.strictObject({
  what: z.enum(['half', 'as assumed', 'double']),
  replicates: z.int().min(1),
  wrong_per_100: estimateSchema,
  exact_share: estimateSchema.exactOptional(),
  first_wrong_h: estimateSchema.exactOptional(),
});

export const figuresSchema = z.strictObject({
  format: z.literal(1),
  drift: z.array(driftSchema).max(10_000),
  room_drift: z.array(roomDriftSchema).max(10_000),
  survival: z.array(survivalSchema).max(10_000),
  hourly: z.array(hourlySchema).max(1000),
  rooms: z.array(roomSchema).max(10_000),
  silhouettes: z.array(silhouetteSchema).max(1000),
  clothing: z.array(clothingSchema).max(3).exactOptional(),
  activity: z.array(activitySchema).max(3).exactOptional(),
}) satisfies z.ZodType<Figures>;

function sameLength(series: Readonly<Record<string, unknown>>): boolean {
  return new Set(Object.values(series).flatMap((value) => (Array.isArray(value) ? [value.length] : []))).size <= 1;
}
