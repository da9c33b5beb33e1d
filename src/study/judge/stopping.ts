/**
 * How many replicates a design gets. Looked at only after fixed numbers of replicates, and only at all of the first ones
 * without a gap: so the answer follows from the design alone, never from which cell was done first.
 */
import type { Estimate } from '../../score/metrics-schema.js';
import type { Study, Until } from '../plan/schema.js';

export type Ended = 'fixed' | 'narrow' | 'replicates' | 'passages';

/** Replicates of a design that are handed out together. */
const FIXED_BATCH = 4;

export class Stopping {
  readonly fixed: number | null;
  readonly until: Until | null;

  constructor(replicates: Study['replicates']) {
    this.fixed = typeof replicates === 'number' ? replicates : null;
    this.until = typeof replicates === 'number' ? null : replicates;
  }

  /** No design gets more. */
  get most(): number {
    return this.fixed ?? Math.max(this.until!.at_least, this.until!.at_most);
  }

  /** The next number of replicates, after `n`, at which is looked. */
  lookAfter(n: number): number {
    if (this.until === null) return this.fixed!;
    const { batch, at_least } = this.until;
    return Math.min(this.most, n < at_least ? at_least : n + batch - ((n - at_least) % batch));
  }

  /** How often a design is looked at, at most: what simultaneous intervals have to allow for. */
  get looks(): number {
    if (this.until === null) return 1;
    const { batch, at_least } = this.until;
    return 1 + Math.max(0, Math.ceil((this.most - at_least) / batch));
  }

  get batch(): number {
    return this.until?.batch ?? FIXED_BATCH;
  }

  /**
   * Whether a design ends at `n` replicates, a number at which is looked.
   *
   * @param estimate over the first n, of the metric that is looked at
   * @param passages visits in them
   */
  endsAt(n: number, estimate: () => Estimate, passages: number): Ended | null {
    if (this.until === null) return n >= this.fixed! ? 'fixed' : null;
    const { half_width, most_passages = Infinity } = this.until;
    const { low, high } = estimate();
    if (low !== null && high !== null && (high - low) / 2 <= half_width) return 'narrow';
    if (n >= this.most) return 'replicates';
    return passages >= most_passages ? 'passages' : null;
  }
}
