/** Readings that something befalls with a fixed chance each: found by the gaps between them, so none is looked at singly. */
import { ln } from '../../engine/arithmetic.js';
import type { Stream } from '../../engine/stream.js';

/** Below this chance nothing happens in the longest clock. */
const NEVER = 1e-15;

/**
 * Numbers of the readings that are struck, in order. Gaps are geometric: the same chance for every reading, whatever
 * befell those before it.
 */
export class Struck {
  /** Number of the next reading that is struck; Infinity when none is. */
  next: number;
  /** How many were struck before `next`. */
  count = 0;
  private readonly perLn: number;

  /** @param share chance of each reading, 0 to below 1 @param stream gaps by number */
  constructor(
    share: number,
    private readonly stream: Stream,
  ) {
    // ln(1 − share) by its series where the difference would lose its digits.
    this.perLn = share < NEVER ? 0 : 1 / (share < 1e-6 ? -share * (1 + share / 2) : ln(1 - share));
    this.next = share < NEVER ? Infinity : this.gap() - 1;
  }

  /** Whether reading `n` is struck; asked with n never falling, and may leave numbers out. */
  strikes(n: number): boolean {
    while (this.next < n) this.pass();
    return this.next === n;
  }

  private pass(): void {
    this.count++;
    this.next += this.gap();
  }

  private gap(): number {
    return 1 + Math.floor(ln(this.stream.at(this.count)) * this.perLn);
  }
}
