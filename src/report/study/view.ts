/** A study's summary with its designs at hand: by number, by levels, the best one, and the number they are ranked by. */
import type { Estimate } from '../../score/metrics-schema.js';
import type { RankedDesign, StudyDesign, StudyFactor, StudySummary } from '../../study/summary-schema.js';

/** An estimate that has a value. */
export type Known = Estimate & { readonly value: number };

export const isKnown = (e: Estimate | undefined): e is Known =>
  e !== undefined && e.value !== null && Number.isFinite(e.value);

export class StudyView {
  readonly factors: readonly StudyFactor[];
  readonly ranked: readonly RankedDesign[];
  /** First of the ranking; null where none is ranked. */
  readonly best: StudyDesign | null;
  /** Rows of the ranking that can not be told from the best, the best among them. */
  readonly perhaps: readonly RankedDesign[];
  /** How the ranked number is printed: a share of time as a percentage. */
  readonly as: 'number' | 'share';
  private readonly byNumber: ReadonlyMap<number, StudyDesign>;
  private readonly byLevels: ReadonlyMap<string, StudyDesign>;

  constructor(readonly summary: StudySummary) {
    const { designs, ranking, factors, rank_by } = summary;
    this.factors = factors;
    this.byNumber = new Map(designs.map((design) => [design.number, design]));
    this.byLevels = new Map(designs.map((design) => [design.levels.join(), design]));
    this.ranked = ranking.rows.filter(({ design }) => this.byNumber.has(design));
    this.best = this.byNumber.get(this.ranked[0]?.design ?? 0) ?? null;
    this.perhaps = this.ranked.filter(({ perhaps_best }) => perhaps_best);
    this.as = rank_by.unit.startsWith('share') ? 'share' : 'number';
  }

  /** Of a row of the ranking. */
  design({ design }: Pick<RankedDesign, 'design'>): StudyDesign {
    return this.byNumber.get(design)!;
  }

  numbered(number: number): StudyDesign | undefined {
    return this.byNumber.get(number);
  }

  /** The design with these levels; none where the combination was left out. */
  at(levels: readonly number[]): StudyDesign | undefined {
    return this.byLevels.get(levels.join());
  }

  /** The number designs are ranked by, over all replicates of the design; null where it has none. */
  estimate(design: StudyDesign | undefined): Known | null {
    const found = design?.metrics[this.summary.rank_by.metric];
    return isKnown(found) ? found : null;
  }

  /** The same as it is drawn: shares as percentages. */
  drawn(e: Known | null): Known | null {
    if (e === null || this.as === 'number') return e;
    const percent = (x: number | null): number | null => (x === null ? null : x * 100);
    return { ...e, value: e.value * 100, low: percent(e.low), high: percent(e.high) };
  }

  /** Whether a is better than b. */
  better(a: number, b: number): boolean {
    return this.summary.rank_by.best === 'least' ? a < b : a > b;
  }
}
