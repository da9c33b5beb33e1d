/** What a report's data block holds, format 1. */
import { z } from 'zod';

const MEGABYTE = 1_048_576;
/** More tables than a scenario has logics. */
const MOST_TABLES = 20;

export const CARRIED_FORMAT = 1;

export const carriedSchema = z.strictObject({
  format: z.literal(CARRIED_FORMAT),
  /** Version that made the run. */
  jambeam: z.string().max(40),
  /** The resolved scenario, YAML. */
  scenario: z.string().max(MEGABYTE),
  /** Texts of logic tables by the names the scenario has for them. */
  tables: z
    .record(z.string().max(500), z.string().max(MEGABYTE))
    .refine((tables) => Object.keys(tables).length <= MOST_TABLES, `more than ${MOST_TABLES} tables`),
});
export type Carried = z.infer<typeof carriedSchema>;
