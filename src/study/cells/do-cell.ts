/** One cell done: the work of a study, the same on every thread and machine. */
import type { OutsideLogics } from '../../counter/make-logic.js';
import type { Design } from '../../scenario/schema.js';
import { calibrated } from '../../simulate/calibration.js';
import { runReplicate } from '../../simulate/replicate.js';
import type { Lesson } from '../store/entry.js';
import { type FlatCell, cellOf, flat } from './cell.js';

/** What is to be done. */
export interface Task {
  /** Key of the design. */
  readonly key: string;
  readonly design: Design;
  /** From 1; 0: what is learnt before the first. */
  readonly replicate: number;
}

/** What came of it; `failed` is the fault of a logic, in words. */
export type Done = { readonly cell: FlatCell } | { readonly lesson: Lesson } | { readonly failed: string };

/** What code of the user's own did wrong, as what came of a cell. */
export function failedBy({ message, hint }: { readonly message: string; readonly hint?: string | undefined }): Done {
  return { failed: hint === undefined ? message : `${message}; ${hint}` };
}

/** A fault that is none of the user's. */
export function failedOurselves(error: unknown): Done {
  return { failed: `a fault of jambeam's own: ${error instanceof Error ? error.message : String(error)}` };
}

/** Whether a design's logics or ledgers must learn before its first replicate. */
export function needsLesson({ logics, ledgers }: Design): boolean {
  return logics.some(({ use }) => use === 'hidden-markov') || ledgers.some(({ use }) => use === 'likelihood');
}

/** @param lesson null where nothing is learnt, or not yet */
export function withLesson(design: Design, lesson: Lesson | null): Design {
  if (lesson === null) return design;
  const { calibration, learnt } = lesson;
  return {
    ...design,
    ...(calibration && { calibration: [...calibration] }),
    ...(learnt && { learnt: [...learnt] }),
  };
}

export function doCell({ design, replicate }: Pick<Task, 'design' | 'replicate'>, outside?: OutsideLogics): Done {
  if (replicate === 0) {
    const { calibration, learnt } = calibrated(design, outside);
    return { lesson: { ...(calibration && { calibration }), ...(learnt && { learnt }) } };
  }
  return { cell: flat(cellOf(runReplicate(design, replicate, {}, { outside }).record)) };
}
