/** What a user writes about counting logics. */
import { z } from 'zod';
import { name, quantity } from '../engine/quantity.js';

const logicName = name('Name of this logic in results (default: what it uses).').optional();
const timeoutMs = quantity(
  1,
  2_000_000,
  'ms',
  'After this long without a change the logic gives up what it was waiting for.',
);

/** One logic, judged on every door of the scenario. A table's text goes into the design's `tables`, by its file. */
export const logicSchema = z.discriminatedUnion('use', [
  z.strictObject({
    use: z.literal('first-broken').meta({
      description:
        'The beam broken first gives the direction; one tally when both have been broken and both are clear again.',
    }),
    name: logicName,
    timeout_ms: timeoutMs.default(4000),
  }),
  z.strictObject({
    use: z
      .literal('four-level')
      .meta({ description: 'The four-level walk 00-10-11-01-00 with every reversal handled.' }),
    name: logicName,
    timeout_ms: timeoutMs.default(10_000),
  }),
  z.strictObject({
    use: z
      .literal('hold-off')
      .meta({ description: 'First-broken order that ignores the beams for a while after each tally.' }),
    name: logicName,
    timeout_ms: timeoutMs.default(4000),
    hold_off_ms: quantity(1, 100_000, 'ms', 'How long both beams are ignored after a tally.').default(600),
  }),
  z.strictObject({
    use: z
      .literal('table')
      .meta({ description: 'A table of states and rules of your own, in a YAML file beside the scenario.' }),
    name: logicName,
    file: z.string().min(1).max(500).meta({ description: "The table's file, in the scenario's folder or below." }),
  }),
]);
export type LogicChoice = z.infer<typeof logicSchema>;

const sha256 = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .meta({ description: 'SHA-256 of its code.' });

const defeatedBy = z.string().max(500).meta({ description: 'What defeats it, in its own words.' });

/**
 * Logics of the user's own that are code. A scenario can't name them, for a scenario is data and safe to run: they
 * are named where a run is started, and a design records which they were.
 */
export const outsideLogicSchema = z.discriminatedUnion('use', [
  z.strictObject({
    use: z.literal('module').meta({ description: 'A TypeScript or JavaScript file of your own.' }),
    name: logicName,
    file: z.string().min(1).max(500).meta({ description: 'Name of the file, without its folder.' }),
    sha256: sha256.optional(),
    defeated_by: defeatedBy.optional(),
  }),
  z.strictObject({
    use: z.literal('process').meta({ description: 'A program of your own that is run beside.' }),
    name: logicName,
    command: z.string().min(1).max(1000).meta({ description: 'The program and its arguments, as they were given.' }),
    sha256: sha256.optional(),
  }),
]);
export type OutsideChoice = z.infer<typeof outsideLogicSchema>;
export type AnyChoice = LogicChoice | OutsideChoice;
