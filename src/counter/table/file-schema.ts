/**
 * The shape of a table's file, for editors that complete and check while one types. What counts is how the table is read
 * (read.ts), which knows the lengths of patterns, names of states and what the rules amount to; a shape can't say that.
 */
import { z } from 'zod';
import { name } from '../../engine/quantity.js';
import { MAX_BEAMS } from '../levels.js';
import { AFTER_MS, MAX_TALLIES, TABLE_FORMAT } from './table.js';

/** A pattern without quotes is a number to YAML; as it is written it is taken, `01` for `01`. */
const pattern = z.union([
  z.string().regex(new RegExp(`^[01xX]{1,${MAX_BEAMS}}$`)),
  z
    .int()
    .min(0)
    .max(Number('1'.repeat(MAX_BEAMS))),
]);
const patterns = z
  .union([z.literal('other'), pattern, z.array(pattern).min(1)])
  .describe(
    'Levels, one character for each beam: 0 clear, 1 broken, x either; a list of such, or `other`: all without a rule.',
  );
const direction = z.enum(['forward', 'backward']);
const go = name('State it goes to; entering it starts its timeout.');
const tally = z
  .union([direction, z.array(direction).min(1).max(MAX_TALLIES)])
  .optional()
  .describe('Who is counted when the rule is followed: forward, backward, or a list of them.');

const rule = z.union([
  z.strictObject({ on: patterns, go, tally }).describe('On these levels, go to that state.'),
  z.strictObject({ stay: patterns }).describe('On these levels nothing happens, and the timeout runs on.'),
  z
    .strictObject({
      after_ms: z
        .number()
        .min(AFTER_MS.min)
        .max(AFTER_MS.max)
        .describe('Milliseconds since the state was entered; at most one such rule in a state.'),
      go,
      tally,
    })
    .describe('When the state has lasted so long, go to that state.'),
]);

export const tableFileSchema = z
  .strictObject({
    format: z.union([z.literal(TABLE_FORMAT), z.literal(String(TABLE_FORMAT))]).describe('Version of the format.'),
    name: name('What the table is called in results.'),
    beams: z.array(name('A beam.')).min(1).max(MAX_BEAMS).describe('Names of the beams; patterns are in this order.'),
    start: name('The state it begins in, with all beams clear.'),
    defeated_by: z.string().optional().describe('One sentence on what defeats it, for the report.'),
    states: z.record(z.string(), z.array(rule)).describe('Each state by its name, with its rules.'),
  })
  .describe('A counting logic as a table of states.');
