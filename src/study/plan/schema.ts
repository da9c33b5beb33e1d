/** What a user writes about a study, format 1: which scenario, what varies, how many replicates. */
import { z } from 'zod';
import { name, quantity, wholeNumber } from '../../engine/quantity.js';
import { headingKeys } from '../../scenario/heading.js';

export const STUDY_FORMAT = 1;
/** Designs of one study, at most. */
export const MOST_DESIGNS = 10_000;

const path = (description: string) => z.string().min(1).max(200).meta({ description });
/** Keys of a scenario with the values they get. */
const changes = (description: string) => z.record(z.string().min(1).max(200), z.unknown()).meta({ description });

const factorSchema = z.strictObject({
  name: name('Name of the factor: a column of the results (default: the last word of its first key).').optional(),
  key: path('Key of the scenario that varies, `doors.*.pair.height_m`; as `--set` has it.').optional(),
  keys: z
    .array(path('Key of the scenario.'))
    .min(1)
    .max(50)
    .optional()
    .meta({ description: 'Keys that vary together; each of `values` is then a list with a value for each of them.' }),
  values: z.array(z.unknown()).min(1).max(1000).optional().meta({ description: 'The values, one level each.' }),
  from: z.number().optional().meta({ description: 'First value of a range.' }),
  to: z.number().optional().meta({ description: 'Last value of a range; reached or not passed.' }),
  step: z.number().positive().optional().meta({ description: 'From value to value of a range.' }),
  variants: z
    .array(
      z.strictObject({
        name: name('Name of the variant.'),
        set: changes('Keys of the scenario and their values in this variant; may be empty: as the scenario has it.'),
      }),
    )
    .min(1)
    .max(200)
    .optional()
    .meta({ description: 'Named variants, each with keys of its own: another sensor, another pair, other logics.' }),
});
export type FactorInput = z.infer<typeof factorSchema>;

const untilSchema = z.strictObject({
  until: path('Path of the metric whose 95 % interval is looked at, `house.wrong_per_100`.'),
  half_width: z
    .number()
    .positive()
    .meta({ description: 'Narrow enough: half of the interval, in the unit of the metric.' }),
  batch: wholeNumber(1, 1000, 'replicates', 'Replicates between two looks.').default(4),
  at_least: wholeNumber(2, 100_000, 'replicates', 'No look before so many.').default(8),
  at_most: wholeNumber(2, 100_000, 'replicates', 'No more than these for a design.').default(200),
  most_passages: wholeNumber(
    1,
    1_000_000_000,
    'passages',
    'No further batch of a design after so many passages.',
  ).optional(),
});

export const studySchema = z.strictObject({
  format: z.literal(STUDY_FORMAT).meta({ description: 'Version of the format of studies.' }),
  name: z
    .string()
    .min(1)
    .max(80)
    .meta({ description: 'Name of the study, and title of its report where there is no other.' }),
  ...headingKeys,
  scenario: z.string().min(1).max(500).meta({ description: 'File of the scenario, as seen from the study file.' }),
  set: changes('Keys of the scenario that are changed for all designs.').default(() => ({})),
  factors: z.array(factorSchema).min(1).max(12).meta({ description: 'What varies; every combination is a design.' }),
  where: z
    .array(z.string().min(1).max(300))
    .max(50)
    .default(() => [])
    .meta({
      description:
        'Conditions that a combination must meet, `spacing_m < jamb_depth_m`: names of factors, keys of a design, keys of doors (then for every door), numbers, + − * / and comparisons.',
    }),
  replicates: z
    .union([wholeNumber(1, 100_000, 'replicates', 'Replicates of each design.'), untilSchema])
    .default(20)
    .meta({ description: 'Replicates of each design: a number, or until an interval is narrow enough.' }),
  rank_by: path('Path of the metric that designs are ranked by.').default('house.wrong_per_100'),
  best: z.enum(['least', 'most']).default('least').meta({ description: 'Whether little or much of it is good.' }),
  hours: quantity(0.01, 8760, 'h', 'Simulated hours of each replicate, in place of those of the scenario.').optional(),
});
export type Study = z.infer<typeof studySchema>;
export type Until = z.infer<typeof untilSchema>;
