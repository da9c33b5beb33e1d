/** A replicate run for an onlooker alone, as far as there is anything left to see. */
import type { OutsideLogics } from '../counter/make-logic.js';
import type { Design } from '../scenario/schema.js';
import { runReplicate } from './replicate.js';
import type { Watch } from './watch.js';

/** Thrown to end a run of which nothing more is wanted. */
class SeenEnough extends Error {}

/** @param enough asked before each visit whether nothing more is wanted */
export function watchReplicate(
  design: Design,
  number: number,
  watch: Watch,
  enough: () => boolean,
  outside?: OutsideLogics,
): void {
  const visit: Watch['visit'] = (...visited) => {
    if (enough()) throw new SeenEnough();
    watch.visit?.(...visited);
  };
  try {
    runReplicate(design, number, {}, { outside, watch: { ...watch, visit } });
  } catch (error) {
    if (!(error instanceof SeenEnough)) throw error;
  }
}
