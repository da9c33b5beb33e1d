/** The shape of study.json, format 1: what a study found out. The report is made from it alone. */
import { z } from 'zod';
import { headingKeys } from '../scenario/heading.js';
import { estimateSchema } from '../score/metrics-schema.js';

const total = (description: string) => z.number().int().meta({ description });
const label = (description: string) => z.string().meta({ description });

/** A difference with an interval that holds for all differences of its table at once. */
export const differenceSchema = z.strictObject({
  value: z.number().meta({ description: 'Estimated difference.' }),
  low: z.number().nullable().meta({ description: 'Low end; null where there are fewer than two replicates.' }),
  high: z.number().nullable().meta({ description: 'High end.' }),
});
export type Difference = z.infer<typeof differenceSchema>;

const factorSchema = z.strictObject({
  name: label('Name of the factor: a column of the results.'),
  keys: z.array(z.string()).meta({ description: 'Keys of the scenario that it sets.' }),
  unit: z.string().nullable().meta({ description: 'Unit of its values, where the keys have one.' }),
  unpaired: z
    .boolean()
    .meta({ description: 'Whether it changes the crowd itself, so that its levels met different crowds.' }),
  levels: z
    .array(
      z.strictObject({
        label: label('What the level is called.'),
        value: z.number().nullable().meta({ description: 'Its number, where it is one.' }),
      }),
    )
    .meta({ description: 'Its levels, in the order of the study file.' }),
});
export type StudyFactor = z.infer<typeof factorSchema>;

const effortSchema = z.strictObject({
  holes: total('Holes drilled.'),
  cable_m: z.number().nullable().meta({ description: 'Cable, drilled through walls; null without a plan.', unit: 'm' }),
  hours: z.number().meta({ description: 'Hours of work.', unit: 'h' }),
  cost: z
    .number()
    .nullable()
    .meta({ description: 'Parts and work, in the currency of the scenario; null without prices.' }),
});

const designSchema = z.strictObject({
  number: total('Number of the design, from 1.'),
  levels: z.array(z.number().int()).meta({ description: 'Level of each factor, from 0.' }),
  crowd: total('Designs of one number met the same crowds, replicate by replicate.'),
  state: z.enum(['done', 'unfinished', 'failed']).meta({ description: 'How far it came.' }),
  error: z.string().optional().meta({ description: 'Why it failed.' }),
  replicates: total('Replicates counted: the first ones, without a gap.'),
  passages: total('Visits to all doors in them.'),
  ended: z.enum(['fixed', 'narrow', 'replicates', 'passages']).nullable().meta({
    description:
      'Why no more were run: their number was fixed, the interval narrow enough, or a budget used up; null: not ended.',
  }),
  metrics: z.record(z.string(), estimateSchema).meta({
    description: 'Estimates by their paths in metrics.json, each interval for itself at 95 %.',
  }),
  by_who: z
    .array(
      z.strictObject({
        who: label('The walker, as in the mix.'),
        visits: total('Its visits to all doors.'),
        wrong_per_100_visits: estimateSchema,
      }),
    )
    .meta({ description: 'Wrong counts by who came, under the first logic.' }),
  effort: effortSchema.meta({ description: 'What installing it takes.' }),
});
export type StudyDesign = z.infer<typeof designSchema>;

const rankedSchema = z.strictObject({
  design: total('Number of the design.'),
  worse_than_best: differenceSchema.nullable().meta({
    description: 'By how much it is worse than the best one; null for the best itself.',
  }),
  paired: z.boolean().meta({ description: 'Whether both met the same crowds.' }),
  p: z.number().nullable().meta({
    description: 'Of the difference to the best, adjusted by the method of Holm; null where there is none.',
  }),
  perhaps_best: z
    .boolean()
    .meta({ description: 'Whether it can not be told from the best: the set holds the best with 95 % confidence.' }),
});
export type RankedDesign = z.infer<typeof rankedSchema>;

const effectSchema = z.strictObject({
  factor: total('Index of the factor, from 0.'),
  level: total('Its level, from 0.'),
  against: total('The level it is compared with.'),
  designs: total('Pairs of designs that differ in nothing else.'),
  change: differenceSchema,
});
export type MainEffect = z.infer<typeof effectSchema>;

const interactionSchema = z.strictObject({
  factors: z.array(z.number().int()).length(2).meta({ description: 'Indices of the two factors.' }),
  levels: z
    .array(z.array(z.number().int()).length(2))
    .length(2)
    .meta({ description: 'Of each factor the two levels compared.' }),
  designs: total('Fours of designs that differ in nothing else.'),
  change: differenceSchema.meta({
    description: "How much the first factor's change differs between the second factor's two levels.",
  }),
});
export type Interaction = z.infer<typeof interactionSchema>;

export const studySummarySchema = z.strictObject({
  format: z.literal(1).meta({ description: 'Version of this format.' }),
  jambeam: label('Version of jambeam.'),
  name: label('Name of the study.'),
  ...headingKeys,
  scenario: label('Name of the scenario.'),
  seed: label('Seed of all chance.'),
  hours: z.number().meta({ description: 'Simulated hours of each replicate, of the first design.', unit: 'h' }),
  finished: z.boolean().meta({ description: 'Whether all cells are done.' }),
  cells: z.strictObject({
    done: total('Replicates counted, of all designs.'),
    most: total('Most that the study may come to.'),
  }),
  replicates: z
    .strictObject({
      fixed: z
        .number()
        .int()
        .nullable()
        .meta({ description: 'Replicates of every design; null: until narrow enough.' }),
      until: z.string().nullable().meta({ description: 'Path of the metric whose interval is looked at.' }),
      half_width: z.number().nullable().meta({ description: 'Half-width that is narrow enough.' }),
      batch: z.number().int().meta({ description: 'Replicates between two looks.' }),
      at_least: z.number().int(),
      at_most: z.number().int(),
      most_passages: z.number().int().nullable().meta({ description: 'Most passages of a design.' }),
    })
    .meta({ description: 'How many replicates a design gets.' }),
  rank_by: z.strictObject({
    metric: label('Path of the metric that designs are ranked by.'),
    unit: label('Its unit.'),
    best: z.enum(['least', 'most']).meta({ description: 'Which end is good.' }),
  }),
  currency: z.string().nullable().meta({ description: 'Currency of costs.' }),
  doors: z.array(z.string()),
  logics: z.array(z.string()).meta({ description: "The first design's; the first gives the headline." }),
  ledgers: z.array(z.string()),
  factors: z.array(factorSchema).meta({ description: 'What varies.' }),
  where: z.array(z.string()).meta({ description: 'Conditions that a combination must meet.' }),
  left_out: total('Combinations that do not meet them.'),
  designs: z.array(designSchema).meta({ description: 'The designs, the last factor varying fastest.' }),
  ranking: z
    .strictObject({
      replicates: total('Replicates that all ranked designs have.'),
      rows: z.array(rankedSchema).meta({ description: 'The best first.' }),
    })
    .meta({ description: 'Designs ranked, with differences to the best that hold all at once.' }),
  effects: z.strictObject({
    replicates: total('Replicates that they rest on.'),
    main: z.array(effectSchema).meta({ description: "Each factor's steps from level to level." }),
    interactions: z.array(interactionSchema).meta({ description: 'Largest first.' }),
  }),
  front: z.strictObject({
    by: z
      .array(z.enum(['holes', 'cable_m', 'cost']))
      .meta({ description: 'What is weighed against the ranked metric.' }),
    designs: z
      .array(z.number().int())
      .meta({ description: 'Designs that no other beats in one of these without being worse in another.' }),
  }),
});
export type StudySummary = z.infer<typeof studySummarySchema>;
