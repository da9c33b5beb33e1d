/** Which visits one logic counted wrong, and which tallies were nobody's: kept for a closer look, as many as are worth it. */
import type { PassageKind } from '../agents/schema.js';
import type { Visit } from '../agents/visit.js';
import type { Direction } from '../counter/logic.js';
import type { Verdict } from './match.js';
import type { Sign } from './score-sink.js';
import { BACKWARD_ROW, FORWARD_ROW, rowOf } from './truth.js';

/** Where something went wrong. Doors and logics by their index in the design, times in microseconds of the clock. */
interface WrongAt {
  readonly door: number;
  readonly logic: number;
}

export interface WrongVisit extends WrongAt {
  /** Number of the visit in its replicate, as in passages.csv. */
  readonly number: number;
  readonly enter_us: number;
  readonly leave_us: number;
  readonly who: string;
  readonly kind: PassageKind;
  readonly direction: Direction;
  /** Units of wrong, as rates count them. */
  readonly missed: number;
  readonly reversed: number;
  readonly extra: number;
  readonly invented: number;
}

/** A tally while nobody was there. */
export interface StrayTally extends WrongAt {
  readonly time_us: number;
  readonly direction: Direction;
}

/** More of one logic at one door in one replicate are only counted: whoever looks closer has enough to look at. */
export const MOST_KEPT = 500;

export class WrongVisits {
  readonly visits: WrongVisit[] = [];
  readonly strays: StrayTally[] = [];
  private readonly kept = new Map<number, number>();

  judged(door: number, logic: number, visit: Visit, verdict: Readonly<Verdict>): void {
    const row = rowOf(visit);
    const person = row === FORWARD_ROW || row === BACKWARD_ROW;
    const missed = person ? verdict.nothing : 0;
    const reversed = person ? (row === FORWARD_ROW ? verdict.backward : verdict.forward) : 0;
    const extra = person ? verdict.extra : 0;
    const invented = person ? 0 : verdict.forward + verdict.backward + verdict.extra;
    if (missed + reversed + extra + invented === 0 || !this.keeps(door, logic)) return;
    const { number, enter_us, leave_us, who, kind, direction } = visit;
    this.visits.push({
      door,
      logic,
      number,
      enter_us,
      leave_us,
      who,
      kind,
      direction,
      missed,
      reversed,
      extra,
      invented,
    });
  }

  nobody(door: number, logic: number, time_us: number, sign: Sign): void {
    if (!this.keeps(door, logic)) return;
    this.strays.push({ door, logic, time_us, direction: sign > 0 ? 'forward' : 'backward' });
  }

  private keeps(door: number, logic: number): boolean {
    const key = door * 64 + logic;
    const kept = this.kept.get(key) ?? 0;
    if (kept < MOST_KEPT) this.kept.set(key, kept + 1);
    return kept < MOST_KEPT;
  }
}
