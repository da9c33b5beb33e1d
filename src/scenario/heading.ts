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

/** A design, or a study, with what is given of a heading in place of its own. */
export function headed<T extends Heading>(own: T, { title, prepared_by }: Heading): T {
  return { ...own, ...(title !== undefined && { title }), ...(prepared_by !== undefined && { prepared_by }) };
}
