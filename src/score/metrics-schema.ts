/** The shape of metrics.json, format 1: what a run found out, in numbers with intervals. */
import { z } from 'zod';

export const estimateSchema = z.strictObject({
  value: z.number().nullable().meta({ description: 'Point estimate; null with a `reason`.' }),
  low: z.number().nullable().meta({ description: 'Low end of the 95 % interval.' }),
  high: z.number().nullable().meta({ description: 'High end of the 95 % interval.' }),
  method: z.enum(['jackknife-t', 'poisson-zero', 'wilson', 'none']).meta({ description: 'How the interval was made.' }),
  n: z
    .number()
    .int()
    .meta({ description: 'Denominator the estimate rests on: crossings, visits, windows or replicates.' }),
  reason: z.string().optional().meta({ description: 'Why value or interval is missing or to be read with care.' }),
});
export type Estimate = z.infer<typeof estimateSchema>;

export const ROWS = ['forward', 'backward', 'turned back', 'lingered', 'reached', 'pet', 'thing', 'nobody'] as const;
export const COLUMNS = ['forward', 'backward', 'nothing', 'extra'] as const;
export type Row = (typeof ROWS)[number];
export type Column = (typeof COLUMNS)[number];

export const confusionSchema = z.strictObject({
  rows: z.array(z.enum(ROWS)),
  columns: z.array(z.enum(COLUMNS)),
  counts: z
    .array(z.array(z.number().int().nullable()))
    .meta({ description: 'counts[row][column]; nobody × nothing is null.' }),
});
export type Confusion = z.infer<typeof confusionSchema>;

const rates = {
  visits: z.number().int(),
  person_crossings: z.number().int(),
  tallies: z.number().int(),
  wrong_per_100: estimateSchema,
  missed_per_100: estimateSchema,
  extra_per_100: estimateSchema,
  reversed_per_100: estimateSchema,
  invented_per_100: estimateSchema,
  invented_per_hour: estimateSchema,
  drift_per_100: z.strictObject({ bias: estimateSchema, spread: estimateSchema }),
};

export const kindRateSchema = z.strictObject({
  who: z.string(),
  kind: z.string(),
  visits: z.number().int(),
  person_crossings: z.number().int(),
  missed: z.number().int(),
  reversed: z.number().int(),
  extra: z.number().int(),
  invented: z.number().int(),
  wrong_per_100_visits: estimateSchema,
});
export const statureRateSchema = z.strictObject({
  from_m: z.number(),
  to_m: z.number(),
  visits: z.number().int(),
  wrong_per_100_visits: estimateSchema,
});
/** The headline if one assumed share of the mix were half or double; `through` takes the rest. */
export const shareRateSchema = z.strictObject({
  who: z.string(),
  kind: z.string(),
  share: z.number(),
  half: estimateSchema,
  double: estimateSchema,
});

export const doorMetricsSchema = z.strictObject({
  door: z.string(),
  logic: z.string(),
  ...rates,
  by_kind: z.array(kindRateSchema),
  by_stature: z.array(statureRateSchema),
  by_assumed_share: z.array(shareRateSchema),
  breaks_per_crossing: z.array(z.strictObject({ beam: z.string(), estimate: estimateSchema })),
  unmet_parties: z
    .number()
    .int()
    .meta({ description: 'Parties that set out from a room with too few people in it, and so did not.' }),
  confusion: confusionSchema,
});
export type DoorMetrics = z.infer<typeof doorMetricsSchema>;

export const roomMetricsSchema = z.strictObject({
  room: z.string(),
  logic: z.string(),
  ledger: z.string(),
  exact_share: estimateSchema,
  empty_while_occupied_share: estimateSchema,
  occupied_while_empty_share: estimateSchema,
  mean_absolute_error: estimateSchema,
});
export type RoomMetrics = z.infer<typeof roomMetricsSchema>;

export const targetOutcomeSchema = z.strictObject({
  metric: z.string(),
  at_most: z.number().optional(),
  at_least: z.number().optional(),
  outcome: z.enum(['met', 'missed', 'undecided', 'unknown']),
  more_replicates: z
    .number()
    .int()
    .nullable()
    .meta({ description: 'Roughly how many more replicates would decide, when undecided.' }),
});

export const metricsSchema = z.strictObject({
  format: z.literal(1),
  jambeam: z.string().meta({ description: 'Version of jambeam.' }),
  scenario: z.string(),
  seed: z.string(),
  replicates: z.number().int(),
  hours: z.number(),
  house: z
    .strictObject({ logic: z.string(), ...rates })
    .meta({ description: 'All doors together, for the first logic.' }),
  doors: z.array(doorMetricsSchema),
  rooms: z.array(roomMetricsSchema),
  targets: z.array(targetOutcomeSchema),
});
export type Metrics = z.infer<typeof metricsSchema>;
