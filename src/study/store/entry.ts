/** One line of a journal, read as if a stranger had written it: a right sum says that it is whole, not who wrote it. */
import { z } from 'zod';
import { type Calibration, calibrationSchema } from '../../counter/ledger/schema.js';
import { learntSchema } from '../../counter/schema.js';
import { jsonOrNothing } from '../../engine/json.js';
import type { LearntDoorway } from '../../scenario/schema.js';
import type { FlatCell } from '../cells/cell.js';

/** What a design's logics and ledgers have learnt before its first cell. */
export interface Lesson {
  readonly calibration?: readonly Calibration[];
  readonly learnt?: readonly LearntDoorway[];
}

/** One line. `d` is the key of a design, `r` the replicate from 1; replicate 0 is what comes before the first. */
export type Entry = { readonly d: string; readonly r: number } & (
  | FlatCell
  | { readonly lesson: Lesson }
  | { readonly failed: string }
);

export const lessonSchema = z.strictObject({
  calibration: z.array(calibrationSchema).max(1000).optional(),
  learnt: z.array(learntSchema).max(1000).optional(),
});

const whose = { d: z.string(), r: z.int().min(0) };
const wordsSchema = z.union([
  z.strictObject({ ...whose, lesson: lessonSchema }),
  z.strictObject({ ...whose, failed: z.string() }),
]);

/** The entry; null for what is none. Whether a cell's counts are those of its design, only who knows the design can say. */
export function entryOf(text: string): Entry | null {
  const value = jsonOrNothing(text);
  if (typeof value !== 'object' || value === null) return null;
  if (!Object.hasOwn(value, 'v')) return (wordsSchema.safeParse(value).data as Entry | undefined) ?? null;
  const { d, r } = value as { readonly d?: unknown; readonly r?: unknown };
  return typeof d === 'string' && Number.isSafeInteger(r) && (r as number) >= 1 ? (value as Entry) : null;
}
