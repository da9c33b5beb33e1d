/** How far each design of a study has come, and what is to be done next. Follows from the cells alone, in whatever order. */
import { type FlatCell, cellFrom } from '../cells/cell.js';
import { type Ratio, estimateOf } from '../judge/measure.js';
import type { Ended } from '../judge/stopping.js';
import type { PlannedDesign, StudyPlan } from '../plan/plan.js';
import type { Entry, Lesson } from '../store/entry.js';
import type { Span } from '../store/journal.js';

/** A cell to be done: replicate 0 is what a design learns before the first. */
export interface CellName {
  readonly planned: PlannedDesign;
  readonly replicate: number;
}

export class DesignStanding {
  lesson: Lesson | null = null;
  /** The first replicate that failed, and why. */
  failed: { replicate: number; message: string } | null = null;
  ended: Ended | 'failed' | null = null;
  /** Replicates that count: up to the last look that was passed, or the end. */
  counted = 0;
  /** Sums over the cells that are done, for a first impression. */
  readonly sums = { cells: 0, events: 0, exposure: 0, visits: 0 };

  // By replicate − 1, plain numbers: a million cells must fit into memory.
  private readonly at: number[] = [];
  private readonly bytes: number[] = [];
  private readonly events: number[] = [];
  private readonly exposure: number[] = [];
  private readonly visits: number[] = [];
  private readonly handed = new Set<number>();
  private prefix = 0;
  private next = 1;

  constructor(
    readonly planned: PlannedDesign,
    private readonly plan: StudyPlan,
  ) {}

  /** First replicates that are done, without a gap. */
  get complete(): number {
    return this.prefix;
  }

  /** Visits to all doors in the first `n` replicates. */
  passages(n: number): number {
    return this.visits.slice(0, n).reduce((sum, one) => sum + one, 0);
  }

  /** Whether a replicate is done. */
  has(replicate: number): boolean {
    return this.at[replicate - 1] !== undefined;
  }

  /** Where a cell that is done is in the journal. */
  span(replicate: number): Span {
    return { at: this.at[replicate - 1]!, bytes: this.bytes[replicate - 1]! };
  }

  /** Of what is looked at, in the first `n` replicates. */
  private ratios(n: number): Ratio[] {
    return Array.from({ length: n }, (_, i) => ({ events: this.events[i]!, exposure: this.exposure[i]! }));
  }

  /**
   * @param place where the cell is in the journal; only asked of a cell that is not there yet
   * @returns whether the cell can be one of this design
   */
  take(replicate: number, cell: FlatCell, place: () => Span): boolean {
    const counts = cellFrom(cell, this.planned.shape);
    if (typeof counts === 'string') return false;
    // What is done twice, by two machines, is the same twice: the first one stays.
    if (this.has(replicate)) return true;
    const { rank, stop } = this.plan.measures(this.planned);
    const { at, bytes } = place();
    this.at[replicate - 1] = at;
    this.bytes[replicate - 1] = bytes;
    const stopBy = stop.of(counts);
    this.events[replicate - 1] = stopBy.events;
    this.exposure[replicate - 1] = stopBy.exposure;
    const visits = counts.doors.reduce((sum, logics) => sum + logics[0]!.total.visits, 0);
    this.visits[replicate - 1] = visits;
    this.sums.visits += visits;
    this.sums.cells++;
    const { events, exposure } = rank.of(counts);
    this.sums.events += events;
    this.sums.exposure += exposure;
    while (this.has(this.prefix + 1)) this.prefix++;
    this.look();
    return true;
  }

  fail(replicate: number, message: string): void {
    if (this.failed === null || replicate < this.failed.replicate) this.failed = { replicate, message };
    this.look();
  }

  /** The next replicate to be done; undefined where there is none before others are done. */
  hand(): number | undefined {
    if (this.ended !== null) return undefined;
    if (this.lesson === null && this.planned.learns) return this.handOnce(0);
    const last = Math.min(this.plan.stopping.lookAfter(this.counted), (this.failed?.replicate ?? Infinity) - 1);
    while (this.next <= last && (this.has(this.next) || this.handed.has(this.next))) this.next++;
    return this.next <= last ? this.handOnce(this.next) : undefined;
  }

  private handOnce(replicate: number): number | undefined {
    if (this.handed.has(replicate)) return undefined;
    this.handed.add(replicate);
    return replicate;
  }

  private look(): void {
    const { stopping } = this.plan;
    for (let n = stopping.lookAfter(this.counted); this.ended === null && this.prefix >= n; n = stopping.lookAfter(n)) {
      const { stop } = this.plan.measures(this.planned);
      this.counted = n;
      this.ended = stopping.endsAt(n, () => estimateOf(stop, this.ratios(n)), this.passages(n));
    }
    if (this.ended !== null || this.failed === null || this.prefix < this.failed.replicate - 1) return;
    this.counted = Math.max(0, this.failed.replicate - 1);
    this.ended = 'failed';
  }
}

export class Standing {
  readonly designs: readonly DesignStanding[];
  private readonly byKey: ReadonlyMap<string, readonly DesignStanding[]>;
  private at = 0;
  private turn = 0;

  constructor(
    readonly plan: StudyPlan,
    /** Whose designs are this process's: of a slice only some are. */
    readonly mine: (planned: PlannedDesign) => boolean = () => true,
  ) {
    this.designs = plan.designs.map((planned) => new DesignStanding(planned, plan));
    const byKey = new Map<string, DesignStanding[]>();
    for (const one of this.designs) byKey.set(one.planned.key, [...(byKey.get(one.planned.key) ?? []), one]);
    this.byKey = byKey;
  }

  /** Takes an entry of the journal. @returns whether it can be one of this study, or of a larger one before it */
  take(entry: Entry, span: Span): boolean {
    return this.takeNew(entry, () => span);
  }

  /** The same of an entry from elsewhere: `put` puts it into this study's journal, and is called if it says what is not known yet. */
  takeNew(entry: Entry, put: () => Span): boolean {
    let span: Span | undefined;
    const place = (): Span => (span ??= put());
    // Two designs may be the same in all but what they are called; their cells are the same.
    for (const design of this.byKey.get(entry.d) ?? []) {
      if ('failed' in entry) {
        if (design.failed === null || entry.r < design.failed.replicate) place();
        design.fail(entry.r, entry.failed);
      } else if ('lesson' in entry) {
        if (design.lesson === null) place();
        design.lesson ??= entry.lesson;
      } else if (!design.take(entry.r, entry, place)) return false;
    }
    return true;
  }

  /** What can be done next; null: nothing before something else is done. A few replicates of each design by turns. */
  next(): CellName | null {
    const { designs, plan } = this;
    for (let tried = 0; tried <= designs.length; tried++) {
      const design = designs[this.at]!;
      const turns = this.turn < plan.stopping.batch && this.mine(design.planned) && this.isFirst(design);
      const replicate = turns ? design.hand() : undefined;
      if (replicate !== undefined) {
        this.turn++;
        return { planned: design.planned, replicate };
      }
      this.at = (this.at + 1) % designs.length;
      this.turn = 0;
    }
    return null;
  }

  get finished(): boolean {
    return this.designs.every((design) => design.ended !== null || !this.mine(design.planned));
  }

  /** Cells that are done, and most there may be. */
  get cells(): { done: number; most: number } {
    const { stopping } = this.plan;
    let done = 0;
    let most = 0;
    for (const design of this.designs) {
      if (!this.mine(design.planned)) continue;
      done += design.ended === null ? design.sums.cells : design.counted;
      most += design.ended === null ? stopping.most : design.counted;
    }
    return { done, most };
  }

  /** Of designs that are the same only one is run. */
  private isFirst(design: DesignStanding): boolean {
    return this.byKey.get(design.planned.key)![0] === design;
  }
}
