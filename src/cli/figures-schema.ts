/** The shape of figures.json, checked when a folder comes back from outside. */
import { z } from 'zod';
import { PARTS } from '../score/pictures.js';
import { HOWS, REMOVALS, STRUCTURES } from '../score/why-classes.js';
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
  is: z.enum(['adult', 'child', 'pet', 'other']).exactOptional(),
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

const ms = z.number().min(-1e6).max(1e9);
const times = z.array(ms).max(100_000);
const level = z.union([z.literal(0), z.literal(1)]);
const directionSchema = z.enum(['forward', 'backward']);
const bandSchema = z
  .strictObject({ part: z.enum(PARTS), from: z.int().min(0).max(10_000), low_mm: numbers, high_mm: numbers })
  .refine(({ low_mm, high_mm }) => low_mm.length === high_mm.length, 'expected lists of one length');
const pictureSchema = z.strictObject({
  door: text,
  logic: text,
  replicate: z.int().min(1),
  number: z.int().min(1),
  step_ms: z.number().min(0.1).max(10_000),
  span_ms: z.number().min(1).max(1e6),
  panels: z.array(z.strictObject({ height_m: z.number(), beams: z.array(z.int().min(0).max(7)).max(8) })).max(8),
  beams: z
    .array(
      z.strictObject({
        name: text,
        ranger: z.boolean(),
        at_mm: z.number(),
        level,
        changes_ms: times,
        readings_ms: times,
        near: z.array(level).max(100_000),
      }),
    )
    .max(8),
  bodies: z
    .array(
      z.strictObject({
        number: z.int(),
        who: text,
        kind: text,
        direction: directionSchema,
        stature_m: z.number(),
        crosses: z.boolean(),
        enter_ms: ms,
        leave_ms: z.number(),
        bands: z.array(z.array(bandSchema).max(10_000)).max(8),
      }),
    )
    .max(100),
  states: z.array(z.strictObject({ from_ms: ms, label: text })).max(100_000),
  tallies: z.array(z.strictObject({ at_ms: ms, direction: directionSchema })).max(10_000),
  missed: z.int().min(0),
  reversed: z.int().min(0),
  extra: z.int().min(0),
  invented: z.int().min(0),
  why: z.strictObject({ how: z.enum(HOWS), things: z.array(z.enum([...REMOVALS, ...STRUCTURES])) }).exactOptional(),
});

const quantity = z.number().min(0);
const replayedSchema = z.strictObject({
  rows: quantity,
  edges: quantity,
  readings: quantity,
  span_h: quantity,
  out_of_order: quantity,
  duplicates: quantity,
  repeated: quantity,
  wraps: quantity,
  silences: z.array(z.strictObject({ line: quantity, from_us: quantity, at_least_us: quantity })).max(1_000_000),
  unfinished: z.array(z.strictObject({ door: text, beam: text })).max(400),
  own: z.boolean(),
});

const counted = z.int().min(0);
const doorSample = z.tuple([counted, counted, counted, counted, counted, z.int()]);
const time_us = z.number().min(0);
const roomSample = z.tuple([time_us, time_us, time_us]);
const most = 1000;
const replicateSchema = z.strictObject({
  clock_us: z.number().min(1),
  doors: z.array(z.array(doorSample).max(most)).max(most),
  rooms: z.array(z.array(z.array(roomSample).max(most)).max(most)).max(most),
  houses: z.array(z.array(time_us).max(most)).max(most),
});

export const figuresSchema = z.strictObject({
  format: z.literal(1),
  drift: z.array(driftSchema).max(10_000),
  room_drift: z.array(roomDriftSchema).max(10_000),
  survival: z.array(survivalSchema).max(10_000),
  hourly: z.array(hourlySchema).max(1000),
  rooms: z.array(roomSchema).max(10_000),
  silhouettes: z.array(silhouetteSchema).max(1000),
  replicates: z.array(replicateSchema).max(MAX_POINTS).exactOptional(),
  clothing: z.array(clothingSchema).max(3).exactOptional(),
  activity: z.array(activitySchema).max(3).exactOptional(),
  replayed: replayedSchema.exactOptional(),
  pictures: z.array(pictureSchema).max(100).exactOptional(),
}) satisfies z.ZodType<Figures>;

function sameLength(series: Readonly<Record<string, unknown>>): boolean {
  return new Set(Object.values(series).flatMap((value) => (Array.isArray(value) ? [value.length] : []))).size <= 1;
}
