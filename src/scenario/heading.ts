/** What a page is headed with, where its owner wants another heading than the scenario's name. It influences no number. */
import { z } from 'zod';

/** Keys of a scenario and of a study. */
export const headingKeys = {
  title: z.string().min(1).max(80).optional().meta({ description: 'Title of the report, in place of the name.' }),
  prepared_by: z
    .string()
    .min(1)
    .max(80)
    .optional()
    .meta({ description: 'Who prepared the report: a person, a firm, as it is to be printed.' }),
};

export const headingSchema = z.strictObject(headingKeys);
/** Title, and who prepared the page; each may be missing. */
export interface Heading extends z.infer<typeof headingSchema> {}

/**
 * A design, or a study, with what is given of a heading in place of its own. It stands behind the name, as in the schema:
 * the same heading gives the same bytes, whether it came from the scenario or from the command line.
 */
export function headed<T extends Heading>(own: T, given: Heading): T {
  const { title: ownTitle, prepared_by: ownPreparer, ...rest } = own;
  const { title = ownTitle, prepared_by = ownPreparer } = given;
  const heading = { ...(title !== undefined && { title }), ...(prepared_by !== undefined && { prepared_by }) };
  const entries = Object.entries(rest);
  const behind = entries.findIndex(([key]) => key === 'name') + 1;
  return Object.fromEntries([...entries.slice(0, behind), ...Object.entries(heading), ...entries.slice(behind)]) as T;
}
