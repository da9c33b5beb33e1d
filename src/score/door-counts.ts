/** What one logic did at one door in one replicate, in counts: plain data that workers can hand over and sum. */
import type { PassageKind } from '../agents/schema.js';
import type { Visit } from '../agents/visit.js';
import { errorsOf } from './errors.js';
import type { ScoreSink, Sign } from './score-sink.js';
import type { Verdict } from './match.js';
import { COLUMNS, ROWS } from './metrics-schema.js';
import { type NetErrors, addNetError, noNetErrors } from './net-errors.js';
import { BACKWARD_ROW, crossingsOf, FORWARD_ROW, NOBODY_ROW, rowOf, trueNetOf } from './truth.js';

/** Visits of one case (a kind, a stature band, …) and what went wrong with them. */
export interface CaseCounts {
  visits: number;
  /** Person-crossings. */
  crossings: number;
  missed: number;
  reversed: number;
  extra: number;
  invented: number;
}

/** What else is known of the visits of one walker and kind. */
export interface KindCounts extends CaseCounts {
  /** Persons counted minus persons truly gone through, forward positive, in these visits. */
  net_error: number;
  /** When the first of them that was counted wrong entered, microseconds; −1: none was. */
  first_wrong_us: number;
}

/** Net errors of disjoint windows of {@link WINDOW} crossings: how many, their sum and sum of squares. */
export interface WindowSums {
  n: number;
  sum: number;
  sum_sq: number;
}

export interface DoorCounts {
  /** Of the whole door; `invented` includes tallies of nobody. */
  readonly total: CaseCounts;
  readonly tallies: number;
  /** Persons counted minus persons truly gone through, forward positive. */
  readonly net_error: number;
  /** Row by row, `COLUMNS.length` a row. */
  readonly confusion: readonly number[];
  /** By position in the door's mix; what swings in the doorway is of none. */
  readonly entries: readonly CaseCounts[];
  /** In order of first appearance. */
  readonly kinds: readonly (KindCounts & { readonly who: string; readonly kind: PassageKind })[];
  /** `band` b holds statures from b / 10 m up to (b + 1) / 10 m, the upper one excluded; ascending. */
  readonly statures: readonly (CaseCounts & { readonly band: number })[];
  readonly windows: Readonly<WindowSums>;
  /** What the count is off by, visit by visit. */
  readonly net: Readonly<NetErrors>;
}

/** Crossings in a window of drift. A window ends with the visit that fills it. */
export const WINDOW = 100;

const WIDTH = COLUMNS.length;
const emptyCase = (): CaseCounts => ({ visits: 0, crossings: 0, missed: 0, reversed: 0, extra: 0, invented: 0 });
const emptyKind = (): KindCounts => ({ ...emptyCase(), net_error: 0, first_wrong_us: -1 });

/** Errors of all kinds, each one unit. */
export function wrongOf(counts: Pick<CaseCounts, 'missed' | 'reversed' | 'extra' | 'invented'>): number {
  return counts.missed + counts.reversed + counts.extra + counts.invented;
}

export function addCase(into: CaseCounts, more: CaseCounts): void {
  into.visits += more.visits;
  into.crossings += more.crossings;
  into.missed += more.missed;
  into.reversed += more.reversed;
  into.extra += more.extra;
  into.invented += more.invented;
}

export function sumCases(all: readonly CaseCounts[]): CaseCounts {
  const sum = emptyCase();
  for (const counts of all) addCase(sum, counts);
  return sum;
}

/** Band of 0.1 m that a stature falls in: 1.7 m begins band 17. */
function bandOf(stature_m: number): number {
  // The billionth puts 0.7 × 10 and its kin, which may round down, where they belong.
  return Math.floor(stature_m * 10 + 1e-9);
}

/** Counts what a {@link DoorScorer} finds. Memory grows with the number of cases, never with time. */
export class DoorCounter implements ScoreSink {
  private readonly total = emptyCase();
  private readonly confusion: number[] = Array.from({ length: ROWS.length * WIDTH }, () => 0);
  private readonly entries: CaseCounts[] = [];
  private readonly kinds = new Map<string, Map<PassageKind, KindCounts>>();
  private readonly statures: (CaseCounts | undefined)[] = [];
  private readonly windows: WindowSums = { n: 0, sum: 0, sum_sq: 0 };
  private readonly net = noNetErrors();
  private net_error = 0;
  private windowCrossings = 0;
  private windowError = 0;
  private readonly one = emptyCase();

  visit(visit: Visit, verdict: Readonly<Verdict>): void {
    const row = rowOf(visit);
    const at = row * WIDTH;
    const { confusion, one } = this;
    confusion[at] = confusion[at]! + verdict.forward;
    confusion[at + 1] = confusion[at + 1]! + verdict.backward;
    confusion[at + 2] = confusion[at + 2]! + verdict.nothing;
    confusion[at + 3] = confusion[at + 3]! + verdict.extra;

    one.visits = 1;
    one.crossings = row === FORWARD_ROW || row === BACKWARD_ROW ? visit.persons : 0;
    errorsOf(visit, verdict, one);
    addCase(this.total, one);
    // A leaf or a curtain has no stature; who belongs to a household belongs to no entry of a mix.
    if (visit.entry >= 0) addCase((this.entries[visit.entry] ??= emptyCase()), one);
    if (visit.kind !== 'swing') addCase((this.statures[bandOf(visit.stature_m)] ??= emptyCase()), one);

    const truth = trueNetOf(visit);
    const error = verdict.net - truth;
    addNetError(this.net, truth, verdict.net);
    const kind = this.kindCase(visit);
    addCase(kind, one);
    kind.net_error += error;
    // A cut cluster may give its visits out of order.
    if (wrongOf(one) > 0 && (kind.first_wrong_us < 0 || visit.enter_us < kind.first_wrong_us)) {
      kind.first_wrong_us = visit.enter_us;
    }
    this.net_error += error;
    this.windowError += error;
    this.windowCrossings += crossingsOf(visit);
    if (this.windowCrossings >= WINDOW) this.endWindow();
  }

  nobody(_time_us: number, sign: Sign): void {
    this.confusion[NOBODY_ROW * WIDTH + (sign > 0 ? 0 : 1)]!++;
    this.total.invented++;
    this.net.invented++;
    this.net_error += sign;
    this.windowError += sign;
  }

  /** The counts so far, as plain data. */
  counts(): DoorCounts {
    let tallies = 0;
    for (let row = 0; row < ROWS.length; row++) {
      const at = row * WIDTH;
      tallies += this.confusion[at]! + this.confusion[at + 1]! + this.confusion[at + 3]!;
    }
    return {
      total: { ...this.total },
      tallies,
      net_error: this.net_error,
      confusion: [...this.confusion],
      entries: Array.from(this.entries, (counts) => ({ ...(counts ?? emptyCase()) })),
      kinds: [...this.kinds].flatMap(([who, byKind]) =>
        [...byKind].map(([kind, counts]) => ({ who, kind, ...counts })),
      ),
      statures: this.statures.flatMap((counts, band) => (counts ? [{ band, ...counts }] : [])),
      windows: { ...this.windows },
      net: { ...this.net },
    };
  }

  private kindCase(visit: Visit): KindCounts {
    let byKind = this.kinds.get(visit.who);
    if (byKind === undefined) this.kinds.set(visit.who, (byKind = new Map()));
    let counts = byKind.get(visit.kind);
    if (counts === undefined) byKind.set(visit.kind, (counts = emptyKind()));
    return counts;
  }

  private endWindow(): void {
    this.windows.n++;
    this.windows.sum += this.windowError;
    this.windows.sum_sq += this.windowError * this.windowError;
    this.windowCrossings = 0;
    this.windowError = 0;
  }
}
