/** What goes over the queue: data only, checked on arrival at either end. */
import { z } from 'zod';
import { type CellShape, type FlatCell, cellFrom } from '../cells/cell.js';
import type { Done } from '../cells/do-cell.js';
import { type Lesson, lessonSchema } from '../store/entry.js';

export const jobSchema = z.strictObject({
  /** Number of the design, and its key, which must be that of the joining machine's plan. */
  design: z.int().min(1),
  key: z.string().length(24),
  replicate: z.int().min(0),
  /** What the design has learnt, if it learns. */
  lesson: lessonSchema.nullable(),
});
export type Job = z.infer<typeof jobSchema>;

const LONGEST_WORDS = 2000;

/** What a joined machine gave back, as something to be used; or what is wrong with it. */
export function checked(result: unknown, shape: CellShape, replicate: number): { done: Done } | { fault: string } {
  if (typeof result !== 'object' || result === null) return { fault: 'no result' };
  if ('failed' in result)
    return typeof result.failed === 'string' && result.failed.length <= LONGEST_WORDS
      ? { done: { failed: result.failed } }
      : { fault: 'a failure without words' };
  if (replicate === 0) {
    const lesson = lessonSchema.safeParse((result as { lesson?: unknown }).lesson).data;
    return lesson ? { done: { lesson: lesson as Lesson } } : { fault: 'nothing learnt' };
  }
  const { cell } = result as { cell?: unknown };
  const read = cellFrom(cell, shape);
  if (typeof read === 'string') return { fault: read };
  // What else came along is left behind.
  const { v, who } = cell as FlatCell;
  return { done: { cell: { v, who } } };
}
