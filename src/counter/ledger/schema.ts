/** What a user writes about ledgers, and what a design holds for those that have learnt. */
import { z } from 'zod';
import { clockTime, name, quantity, wholeNumber } from '../../engine/quantity.js';

const ledgerName = name('Name of this ledger in results (default: what it uses).').optional();
const use = <const Use extends string>(value: Use, description: string) => z.literal(value).meta({ description });
const household = wholeNumber(
  1,
  10_000,
  'persons',
  'Persons of the house, those who are out included, where that is known; at least those at the start are taken.',
).optional();

/** One ledger, kept for every logic of the scenario. */
export const ledgerSchema = z.discriminatedUnion('use', [
  z.strictObject({ use: use('raw', 'Sum of all tallies; it can go below zero.'), name: ledgerName }),
  z.strictObject({
    use: use('floor', 'Sum that never goes below zero; what is taken away from an empty room is forgotten.'),
    name: ledgerName,
  }),
  z.strictObject({
    use: use('cap', 'Sum that stays between zero and `at_most`; what goes beyond either is forgotten.'),
    name: ledgerName,
    at_most: wholeNumber(1, 10_000, 'persons', 'Most persons a room can hold: those of the house, say.'),
  }),
  z.strictObject({
    use: use('reset', 'Floor at zero that begins anew once a day.'),
    name: ledgerName,
    at: clockTime('Clock time of the reset, HH:MM.').default('04:00'),
    to: z
      .enum(['zero', 'start'])
      .meta({ description: 'What rooms hold after it: nobody, or as many as at the start of the clock.' })
      .default('zero'),
  }),
  z.strictObject({
    use: use('conserve', 'Fetches who leaves an empty room from the nearest place that holds somebody.'),
    name: ledgerName,
    household,
  }),
  z.strictObject({
    use: use('presence', 'Floor at zero, put right by presence sensors of rooms that have one.'),
    name: ledgerName,
  }),
  z.strictObject({
    use: use('likelihood', "The likeliest counts of all rooms together, weighed by the doors' own error rates."),
    name: ledgerName,
    household,
    keep: wholeNumber(1, 4096, 'vectors', 'How many of the likeliest counts of the house are kept.').default(64),
  }),
]);
export type LedgerChoice = z.infer<typeof ledgerSchema>;
export type LedgerUse = LedgerChoice['use'];

export const LEDGERS: readonly LedgerUse[] = ledgerSchema.options.map(({ shape }) => [...shape.use.values][0]!);
/** Those that may be written as a bare name: all their keys have defaults. */
export const BARE_LEDGERS = ['raw', 'floor', 'reset', 'conserve', 'presence', 'likelihood'] as const;

/** Error rates of one logic at one door, learnt before the run by replicates of their own. */
export const calibrationSchema = z.strictObject({
  door: name('Name of the door.'),
  logic: name('Name of the logic.'),
  missed: quantity(0, 1, 'per crossing', 'Crossings without a tally.'),
  reversed: quantity(0, 1, 'per crossing', 'Crossings tallied the wrong way round.'),
  invented: quantity(0, 1_000_000, 'per crossing', "Tallies that stand for nobody's crossing."),
  crossings_per_tally: quantity(0, 1_000_000, 'per tally', 'Crossings of this door for each tally of the house.'),
});
export type Calibration = z.infer<typeof calibrationSchema>;
