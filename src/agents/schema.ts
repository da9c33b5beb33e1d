/** What a user writes about who walks, how and when. */
import { z } from 'zod';
import { clockTime, name, quantity, wholeNumber } from '../engine/quantity.js';

const sex = z
  .enum(['woman', 'man'])
  .meta({ description: 'Sex, for stature, proportions and pace; girl and boy below 18.' });

/** What somebody may carry, push or pull through a doorway. */
export const LOADS = [
  'rucksack',
  'laundry-basket',
  'tray',
  'suitcase',
  'trolley',
  'pram',
  'rollator',
  'wheelchair',
] as const;
export type Load = (typeof LOADS)[number];
const load = z.enum(LOADS).optional().meta({
  description:
    'What each carries, pushes or pulls, as part of the same body; a pram has an infant in it, a wheelchair somebody who is pushed: one person more.',
});

/** One row of a population table of the user's own. */
const tableRow = z.strictObject({
  stature_m: quantity(0.7, 2.3, 'm', 'Stature.'),
  sex: sex.optional(),
  age_y: quantity(2, 100, 'y', 'Age.').optional(),
  share: quantity(0, 1e9, 'share', 'Weight of this row; weights need not add up to one.').default(1),
});

const populationSchema = z.strictObject({
  kind: z.literal('people').meta({ description: 'A population: age, sex and stature are drawn.' }),
  ages_y: z
    .tuple([z.number().min(2).max(100), z.number().min(2).max(100)])
    .meta({ description: 'Youngest and oldest age, drawn evenly between.', unit: 'y' }),
  women_share: quantity(0, 1, 'share', 'Share of women or girls.').default(0.5),
  with_infant: z
    .boolean()
    .meta({ description: 'Each carries an infant on the arm: two persons, one body.' })
    .default(false),
  load,
});
const personSchema = z.strictObject({
  kind: z.literal('person').meta({ description: 'One known person.' }),
  stature_m: quantity(0.7, 2.3, 'm', 'Stature.'),
  sex,
  age_y: quantity(2, 100, 'y', 'Age.'),
  speed_mps: quantity(0.1, 3, 'm/s', 'Walking speed; left out, it is drawn for age and sex.').optional(),
  with_infant: z.boolean().meta({ description: 'Carries an infant on the arm: two persons, one body.' }).default(false),
  load,
});
const tableSchema = z.strictObject({
  kind: z.literal('table').meta({ description: 'A population given row by row.' }),
  rows: z.array(tableRow).min(1).max(10000).meta({ description: 'The rows of the table.' }),
  with_infant: z
    .boolean()
    .meta({ description: 'Each carries an infant on the arm: two persons, one body.' })
    .default(false),
  load,
});
const rodSchema = z.strictObject({
  kind: z.literal('test-rod').meta({
    description: 'An upright cylinder with a rounded top at constant speed, as light curtains are tested with.',
  }),
  diameter_m: quantity(0.001, 1, 'm', 'Diameter.'),
  height_m: quantity(0.05, 3, 'm', 'Height.').default(1.8),
  speed_mps: quantity(0.05, 5, 'm/s', 'Speed; with `speed_to_mps`, the slowest.'),
  speed_to_mps: quantity(0.05, 5, 'm/s', 'Fastest speed; speeds are drawn evenly between.').optional(),
  persons: wholeNumber(0, 10, 'persons', 'How many persons a rod stands for.').default(1),
});
const wheelchairUserSchema = z.strictObject({
  kind: z.literal('wheelchair-user').meta({
    description: 'Somebody who drives a wheelchair of their own: one person who rolls straight through, evenly.',
  }),
  ages_y: z
    .tuple([z.number().min(14).max(100), z.number().min(14).max(100)])
    .meta({ description: 'Youngest and oldest age, drawn evenly between.', unit: 'y' })
    .default([18, 90]),
  women_share: quantity(0, 1, 'share', 'Share of women or girls.').default(0.5),
  speed_mps: quantity(0.1, 3, 'm/s', 'Speed; with `speed_to_mps`, the slowest.').default(0.5),
  speed_to_mps: quantity(0.1, 3, 'm/s', 'Fastest speed; speeds are drawn evenly between.').default(0.9),
});
const robotSchema = z.strictObject({
  kind: z.literal('robot-vacuum').meta({
    description: 'A flat round thing that drives by itself, straight through at constant speed; nobody.',
  }),
  diameter_m: quantity(0.1, 0.8, 'm', 'Diameter.').default(0.34),
  height_m: quantity(0.03, 0.4, 'm', 'Height.').default(0.09),
  speed_mps: quantity(0.05, 2, 'm/s', 'Speed.').default(0.3),
});
const petSpeed = quantity(0.05, 2, 'm/s', 'Walking speed; left out, it is drawn for the size.').optional();
const dogSchema = z.strictObject({
  kind: z.literal('dog').meta({ description: 'A dog that walks by itself. Nobody is to be counted for it.' }),
  size: z.enum(['small', 'medium', 'large', 'giant']).meta({ description: 'Below 10 kg, to 25 kg, to 40 kg, above.' }),
  withers_m: quantity(0.1, 1.1, 'm', 'Height at the withers; left out, it is drawn for the size.').optional(),
  speed_mps: petSpeed,
});
const catSchema = z.strictObject({
  kind: z.literal('cat').meta({ description: 'A cat that walks by itself. Nobody is to be counted for it.' }),
  withers_m: quantity(0.15, 0.4, 'm', 'Height at the withers; left out, it is drawn.').optional(),
  speed_mps: petSpeed,
});
/** Every kind of walker; `who` in the mix names one. */
export const walkerSchema = z.discriminatedUnion('kind', [
  populationSchema,
  personSchema,
  tableSchema,
  rodSchema,
  wheelchairUserSchema,
  robotSchema,
  dogSchema,
  catSchema,
]);
export type Walker = z.infer<typeof walkerSchema>;
export type PetWalker = Extract<Walker, { kind: 'dog' | 'cat' }>;

/** Whether a walker is a dog or a cat. */
export function isPet(walker: Walker): walker is PetWalker {
  return walker.kind === 'dog' || walker.kind === 'cat';
}

/** What a pet may set out to do by itself. */
export const PET_KINDS: readonly string[] = ['through', 'turn-back', 'linger'];

/** What a party may set out to do. */
export const MIX_KINDS = ['through', 'abreast', 'close-behind', 'against', 'turn-back', 'linger', 'reach'] as const;
export type MixKind = (typeof MIX_KINDS)[number];
/** What may happen in a doorway: besides, a pet goes at somebody's heel, and a leaf or a curtain swings. */
export const PASSAGE_KINDS = [...MIX_KINDS, 'at-heel', 'swing'] as const;
export type PassageKind = (typeof PASSAGE_KINDS)[number];

export const mixEntrySchema = z.strictObject({
  who: name(
    'A walker: adult, child, adult-with-infant, another that is built in (`jambeam keys` lists them), or one named under `walkers`.',
  ),
  kind: z.enum(MIX_KINDS).meta({ description: 'What the party does in the doorway.' }),
  share: quantity(0, 1, 'share', 'Share of arriving parties.'),
});
export type MixEntry = z.infer<typeof mixEntrySchema>;

export const arrivalSpanSchema = z.strictObject({
  from: clockTime('Clock time at which the rate begins, HH:MM.'),
  per_hour: quantity(
    0,
    1e5,
    '1/h',
    'Parties per hour from then on, until the next row; the last row lasts until the first comes round.',
  ),
});
/** Shares of the mix are of arriving parties and are an assumption: no survey of household doorways stands behind them. */
export const DEFAULT_MIX: readonly MixEntry[] = [
  { who: 'adult', kind: 'through', share: 0.62 },
  { who: 'child', kind: 'through', share: 0.24 },
  { who: 'adult', kind: 'abreast', share: 0.06 },
  { who: 'adult', kind: 'turn-back', share: 0.04 },
  { who: 'adult', kind: 'linger', share: 0.03 },
  { who: 'adult-with-infant', kind: 'through', share: 0.01 },
];

/** What rooms are for. */
export const ROOM_USES = [
  'hall',
  'living',
  'kitchen',
  'dining',
  'bedroom',
  'bathroom',
  'study',
  'workshop',
  'storage',
  'reading',
] as const;

export const trafficSchema = z.strictObject({
  arrivals_per_hour: z.union([z.number().min(0).max(1e5), z.array(arrivalSpanSchema).min(1).max(96)]).meta({
    description: 'Parties that set out per hour: one number, or a rate by clock time. Return trips come on top.',
    unit: '1/h',
  }),
  forward_share: quantity(0, 1, 'share', 'Share of parties whose first move is forward.').default(1),
  one_way: z.boolean().meta({ description: 'Nobody returns.' }).default(false),
  stay_mean_min: quantity(0.01, 10000, 'min', 'Mean stay before the way back, exponentially distributed.').default(20),
  home_pace: quantity(
    0.2,
    1.5,
    'share',
    'Walking pace as a share of the published comfortable pace; an assumption, a home walks slower than a street.',
  ).default(0.7),
  mix: z
    .array(mixEntrySchema)
    .min(1)
    .max(50)
    .meta({ description: 'Which party does what, with shares that add up to 1.' })
    .default(() => DEFAULT_MIX.map((entry) => ({ ...entry }))),
});
export type Traffic = z.infer<typeof trafficSchema>;

export const BUILT_IN_WALKERS: Readonly<Record<string, Walker>> = {
  adult: { kind: 'people', ages_y: [18, 80], women_share: 0.5, with_infant: false },
  child: { kind: 'people', ages_y: [3, 12], women_share: 0.5, with_infant: false },
  'adult-with-infant': { kind: 'people', ages_y: [20, 45], women_share: 0.5, with_infant: true },
  'adult-with-suitcase': { kind: 'people', ages_y: [18, 80], women_share: 0.5, with_infant: false, load: 'suitcase' },
  'adult-with-laundry-basket': {
    kind: 'people',
    ages_y: [18, 80],
    women_share: 0.5,
    with_infant: false,
    load: 'laundry-basket',
  },
  'adult-with-pram': { kind: 'people', ages_y: [20, 45], women_share: 0.5, with_infant: false, load: 'pram' },
  'adult-with-rollator': { kind: 'people', ages_y: [70, 95], women_share: 0.6, with_infant: false, load: 'rollator' },
  'wheelchair-pushed': { kind: 'people', ages_y: [20, 70], women_share: 0.5, with_infant: false, load: 'wheelchair' },
  'wheelchair-user': {
    kind: 'wheelchair-user',
    ages_y: [18, 90],
    women_share: 0.5,
    speed_mps: 0.5,
    speed_to_mps: 0.9,
  },
  'robot-vacuum': { kind: 'robot-vacuum', diameter_m: 0.34, height_m: 0.09, speed_mps: 0.3 },
  'dog-small': { kind: 'dog', size: 'small' },
  'dog-medium': { kind: 'dog', size: 'medium' },
  'dog-large': { kind: 'dog', size: 'large' },
  'dog-giant': { kind: 'dog', size: 'giant' },
  cat: { kind: 'cat' },
};

/** Walkers that only go straight through: they have no legs to stop and turn on. */
export const THROUGH_ONLY: Readonly<Partial<Record<Walker['kind'], string>>> = {
  'test-rod': 'a test rod',
  'wheelchair-user': 'a wheelchair user who rolls as one piece',
  'robot-vacuum': 'a robot vacuum',
};
