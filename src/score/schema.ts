/** What a user writes about what is good enough. */
import { z } from 'zod';

export const targetSchema = z.strictObject({
  metric: z.string().min(1).max(200).meta({
    description:
      'Path of an estimate in metrics.json, for example `house.wrong_per_100` or `doors.front.missed_per_100`; `rooms.*` is every room.',
  }),
  at_most: z.number().optional().meta({ description: "Met when the interval's high end is no more than this." }),
  at_least: z.number().optional().meta({ description: "Met when the interval's low end is no less than this." }),
});
export type Target = z.infer<typeof targetSchema>;
