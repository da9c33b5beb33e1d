/** The shape of metrics.json, format 1: what a run found out, in numbers with intervals. */
import { z } from 'zod';
import { HOWS, REMOVALS, STRUCTURES } from './why-classes.js';

export const estimateSchema = z.strictObject({
  value: z.number().nullable().meta({ description: 'Point estimate; null with a `reason`.' }),
  low: z.number().nullable().meta({ description: 'Low end of the 95 % interval.' }),
  high: z.number().nullable().meta({ description: 'High end of the 95 % interval.' }),
  method: z
    .enum([
      'jackknife-t',
      'poisson-zero',
      'poisson-exact',
      'wilson',
      'kaplan-meier',
      'exponential',
      'oversampled',
      'none',
    ])
    .meta({ description: 'How the interval was made.' }),
  n: z
    .number()
    .int()
    .meta({ description: 'Denominator the estimate rests on: crossings, visits, windows or replicates.' }),
  reason: z.string().optional().meta({ description: 'Why value or interval is missing or to be read with care.' }),
});
/** A number with its 95 % interval, how that was made, and what it rests on. */
export interface Estimate extends z.infer<typeof estimateSchema> {}

export const ROWS = ['forward', 'backward', 'turned back', 'lingered', 'reached', 'pet', 'thing', 'nobody'] as const;
export const COLUMNS = ['forward', 'backward', 'nothing', 'extra'] as const;
export type Row = (typeof ROWS)[number];
export type Column = (typeof COLUMNS)[number];

export const confusionSchema = z.strictObject({
  rows: z.array(z.enum(ROWS)).meta({ description: 'What happened.' }),
  columns: z.array(z.enum(COLUMNS)).meta({ description: 'What the logic said of it.' }),
  counts: z
    .array(z.array(z.number().int().nullable()))
    .meta({ description: 'counts[row][column]; nobody × nothing is null.' }),
});
export type Confusion = z.infer<typeof confusionSchema>;

/** A whole number that counts things. */
const total = (description: string) => z.number().int().meta({ description });
/** What one thing is called. */
const label = (description: string) => z.string().meta({ description });
/** An estimate of one thing in one unit. */
const estimate = (unit: string, description: string) => estimateSchema.meta({ description, unit });

const PER_100 = 'per 100 crossings';
const rates = {
  visits: total('Stays of one body in the doorway zone.'),
  person_crossings: total('Persons who went through: each person aboard a crossing body is one.'),
  tallies: total('What the logic said, one person at a time.'),
  wrong_per_100: estimate(PER_100, 'Missed, extra, reversed and invented together; it can exceed 100.'),
  missed_per_100: estimate(PER_100, 'Crossings without a tally.'),
  extra_per_100: estimate(PER_100, 'Tallies too many for bodies that went through.'),
  reversed_per_100: estimate(PER_100, 'Crossings tallied the wrong way round.'),
  invented_per_100: estimate(PER_100, 'Tallies for bodies that did not go through, or for nobody.'),
  invented_per_hour: estimate('per hour', 'The same per simulated hour.'),
  drift_per_100: z
    .strictObject({
      bias: estimate(PER_100, 'Counted minus true net flow, forward as plus: what adds up.'),
      spread: estimate('persons', 'Standard deviation of counted minus true over windows of 100 crossings.'),
    })
    .meta({ description: 'How the count drifts from the truth.' }),
};

const PER_100_VISITS = 'per 100 visits';
export const kindRateSchema = z.strictObject({
  who: label('The walker, as in the mix.'),
  kind: label('The kind of passage.'),
  visits: total('Visits of this kind.'),
  person_crossings: total('Persons who went through in them.'),
  missed: total('Their crossings without a tally.'),
  reversed: total('Their crossings tallied the wrong way round.'),
  extra: total('Tallies too many for those who went through.'),
  invented: total('Tallies for those who did not go through.'),
  wrong_per_100_visits: estimate(PER_100_VISITS, 'All four together, in visits of this kind.'),
  visits_per_week: estimate('per week', 'Visits of this kind.'),
  wrong_per_week: estimate('per week', 'Wrong counts in them.'),
  net_error_per_week: estimate(
    'persons per week',
    'Counted minus true persons forward in them: what the room ahead gains and the room behind loses.',
  ),
  first_wrong_median_days: estimate('days', 'Median wait until the first wrong count of this kind.'),
  oversampled: z
    .number()
    .int()
    .optional()
    .meta({ description: 'Extra visits of this kind that the numbers per week rest on, where it is rare.' }),
});
export const statureRateSchema = z.strictObject({
  from_m: z.number().meta({ description: 'Stature from which the band reaches, included.', unit: 'm' }),
  to_m: z.number().meta({ description: 'Stature up to which it reaches, not included.', unit: 'm' }),
  visits: total('Visits of bodies of this stature.'),
  wrong_per_100_visits: estimate(PER_100_VISITS, 'Wrong counts in them.'),
});
/** The headline if one assumed share of the mix were half or double; `through` takes the rest. */
export const shareRateSchema = z.strictObject({
  who: label('The walker, as in the mix.'),
  kind: label('The kind of passage.'),
  share: z.number().meta({ description: 'The share as assumed in the scenario.', unit: 'share' }),
  half: estimate(PER_100, 'Wrong counts if the share were half as large.'),
  double: estimate(PER_100, 'Wrong counts if the share were twice as large.'),
});

export const doorMetricsSchema = z.strictObject({
  door: label('Name of the door.'),
  logic: label('Name of the logic.'),
  ...rates,
  by_kind: z.array(kindRateSchema).meta({ description: 'By walker and kind of passage.' }),
  by_stature: z.array(statureRateSchema).meta({ description: 'By stature of the body.' }),
  by_assumed_share: z
    .array(shareRateSchema)
    .meta({ description: 'The headline at half and double each assumed share of the mix; `through` takes the rest.' }),
  breaks_per_crossing: z
    .array(
      z.strictObject({
        beam: label('Name of the beam.'),
        estimate: estimate('breaks per crossing', 'Breaks of this beam for each person-crossing.'),
      }),
    )
    .meta({ description: 'How often each beam is broken.' }),
  unmet_parties: z.number().int().meta({
    description:
      'Parties that set out from a room with too few people in it, or were kept out by a shut leaf, and so did not.',
  }),
  confusion: confusionSchema.meta({
    description:
      'One entry per person-crossing and per visit that does not cross: what happened against what was said.',
  }),
});
export type DoorMetrics = z.infer<typeof doorMetricsSchema>;
/** What a door counts of one kind of passage. */
export type KindRate = DoorMetrics['by_kind'][number];

const EMPTY_PER_DAY = 'How often a day the count says empty, for 10 s or longer, while somebody is there.';
const OCCUPIED_PER_DAY = 'How often a day the count says occupied, for 10 s or longer, while nobody is there.';
export const roomMetricsSchema = z.strictObject({
  room: label('Name of the room.'),
  logic: label('Name of the logic.'),
  ledger: label('How tallies became the count.'),
  exact_share: estimate('share of time', 'The count is right.'),
  empty_while_occupied_share: estimate('share of time', 'The count says empty and somebody is there.'),
  occupied_while_empty_share: estimate('share of time', 'The count says occupied and nobody is there.'),
  mean_absolute_error: estimate('persons', 'Mean distance of the count from the truth, over time.'),
  empty_while_occupied_per_day: estimate('per day', EMPTY_PER_DAY),
  occupied_while_empty_per_day: estimate('per day', OCCUPIED_PER_DAY),
  longest_empty_while_occupied_min: estimate('min', "Each replicate's longest such stretch, on average."),
  longest_occupied_while_empty_min: estimate('min', "Each replicate's longest such stretch, on average."),
  max_empty_while_occupied_min: z
    .number()
    .meta({ description: 'The longest such stretch of all replicates; 0: none.', unit: 'min' }),
  max_occupied_while_empty_min: z
    .number()
    .meta({ description: 'The longest such stretch of all replicates; 0: none.', unit: 'min' }),
  first_wrong_h: estimate('h', 'Median time until the count is first wrong for 10 s or longer.'),
});
export type RoomMetrics = z.infer<typeof roomMetricsSchema>;

export const houseMetricsSchema = z.strictObject({
  logic: label('Name of the logic.'),
  ledger: label('How tallies became the counts.'),
  exact_share: estimate('share of time', 'The counts of all rooms are right at once.'),
  persons_bias: estimate('persons', 'Counted minus true persons in all rooms together, mean over time.'),
  persons_absolute_error: estimate('persons', 'Mean distance of that total from the truth, over time.'),
  empty_while_occupied_per_day: estimate('per day', `${EMPTY_PER_DAY.slice(0, -1)}, all rooms together.`),
  occupied_while_empty_per_day: estimate('per day', `${OCCUPIED_PER_DAY.slice(0, -1)}, all rooms together.`),
  first_wrong_h: estimate('h', 'Median time until some room is first wrong for 10 s or longer.'),
});
export type HouseMetrics = z.infer<typeof houseMetricsSchema>;

export const rankedLogicSchema = z.strictObject({
  door: z.string().nullable().meta({ description: 'Name of the door; null for all doors together.' }),
  logic: label('Name of the logic.'),
  wrong_per_100: estimate(PER_100, 'How often it is wrong there.'),
  more_than_best_per_100: estimateSchema.nullable().meta({
    description: 'How much more often than the best one, pair by pair over the same crowds; null for the best itself.',
    unit: PER_100,
  }),
});
export type RankedLogic = z.infer<typeof rankedLogicSchema>;

export const whyMetricsSchema = z.strictObject({
  door: z.string().nullable().meta({ description: 'Name of the door; null for all doors together.' }),
  logic: label('Name of the logic.'),
  wrong: total('Wrong visits and tallies of nobody in the replicates that were looked at.'),
  explained: total('How many of them were simulated again.'),
  causes: z
    .array(
      z.strictObject({
        how: z.enum(HOWS).meta({
          description:
            'only: right without this one thing; either: right without any one of them; pair: right only without both; structure: read from the record.',
        }),
        things: z
          .array(z.enum([...REMOVALS, ...STRUCTURES]))
          .meta({ description: 'What was taken away, or what the record says.' }),
        explained: total('How many of those simulated again.'),
        errors: z
          .strictObject({
            missed: total('Crossings not counted.'),
            reversed: total('Crossings counted the other way round.'),
            extra: total('Tallies of a crossing beyond its own.'),
            invented: total('Tallies of who did not cross, and of nobody.'),
          })
          .meta({ description: 'Units of wrong in those, by kind of error.' }),
        share: estimate('share', 'Share of what was wrong there.'),
        per_week: estimate(
          'per week',
          'Wrong visits and tallies of nobody of this cause: its share of those in all replicates.',
        ),
      }),
    )
    .meta({ description: 'The most frequent first; shares sum to one.' }),
});
export type WhyMetrics = z.infer<typeof whyMetricsSchema>;

export const targetOutcomeSchema = z.strictObject({
  metric: label('Path of the estimate in this file.'),
  at_most: z.number().optional().meta({ description: 'Limit from above, as in the scenario.' }),
  at_least: z.number().optional().meta({ description: 'Limit from below, as in the scenario.' }),
  outcome: z
    .enum(['met', 'missed', 'undecided', 'unknown'])
    .meta({ description: 'Met or missed when the whole interval says so; unknown without an interval.' }),
  more_replicates: z
    .number()
    .int()
    .nullable()
    .meta({ description: 'Roughly how many more replicates would decide, when undecided.' }),
});

export type TargetOutcome = z.infer<typeof targetOutcomeSchema>['outcome'];

export const metricsSchema = z.strictObject({
  format: z.literal(1).meta({ description: 'Version of this format.' }),
  jambeam: label('Version of jambeam.'),
  scenario: label('Name of the scenario.'),
  seed: label('Seed of all chance.'),
  replicates: total('Independent repetitions.'),
  hours: z.number().meta({ description: 'Simulated hours of each replicate.', unit: 'h' }),
  house: z
    .strictObject({ logic: label('Name of the first logic.'), ...rates })
    .meta({ description: 'All doors together, for the first logic.' }),
  doors: z.array(doorMetricsSchema).meta({ description: 'Each door with each logic.' }),
  ranking: z.array(rankedLogicSchema).meta({
    description: 'Logics, least often wrong first: all doors together, then each door; empty with one logic.',
  }),
  rooms: z.array(roomMetricsSchema).meta({ description: 'Each room with each logic and ledger.' }),
  houses: z.array(houseMetricsSchema).meta({ description: 'All rooms at once, for each logic with each ledger.' }),
  why: z.array(whyMetricsSchema).meta({
    description: 'Why visits went wrong, for each logic: all doors together, then each of several doors.',
  }),
  targets: z.array(targetOutcomeSchema).meta({ description: "How the scenario's targets came out." }),
});
/** Every number of a run. What metrics.json holds. */
export interface Metrics extends z.infer<typeof metricsSchema> {}
