/**
 * Rows of all doors of a house in order of time. Doors are finished one after another, each as far as it is known; rows wait
 * here until none can come before them.
 */
import type { TallyRow } from './outcome.js';

export interface DoorRow {
  readonly time_us: number;
  readonly door: number;
}

export class RowOrder<Row extends DoorRow> {
  private waiting: Row[] = [];

  /** @param before which of two rows of one instant and door goes first; by default the one that was put first */
  constructor(
    private readonly give: (row: Row) => void,
    private readonly before: (a: Row, b: Row) => number = () => 0,
  ) {}

  put(row: Row): void {
    this.waiting.push(row);
  }

  /** Nothing before `until_us` is still to come. */
  release(until_us: number): void {
    const { waiting } = this;
    const ready = waiting.filter(({ time_us }) => time_us < until_us);
    if (ready.length === 0) return;
    this.waiting = ready.length === waiting.length ? [] : waiting.filter(({ time_us }) => time_us >= until_us);
    ready.sort((a, b) => a.time_us - b.time_us || a.door - b.door || this.before(a, b));
    for (const row of ready) this.give(row);
  }
}

/** Tallies of one instant at one door go by logic. */
export function tallyOrder(give: (row: TallyRow) => void): RowOrder<TallyRow> {
  return new RowOrder(give, (a, b) => a.logic - b.logic);
}
