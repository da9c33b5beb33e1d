/** Which visits one logic counted wrong, and which tallies were nobody's: kept for a closer look, as many as are worth it. */
import type { PassageKind } from '../agents/schema.js';
import type { Visit } from '../agents/visit.js';
import type { Direction } from '../counter/logic.js';
import { wrongOf } from './door-counts.js';
import { type ErrorCounts, errorsOf } from './errors.js';
import type { Verdict } from './match.js';
import type { Sign } from './score-sink.js';

/** Where something went wrong. Doors and logics by their index in the design, times in microseconds of the clock. */
interface WrongAt {
  readonly door: number;
  readonly logic: number;
  /** When somebody last entered the empty doorway, at or before that; −1 when nobody had. */
  readonly opened_us: number;
}

/** With its units of wrong, as rates count them. */
export interface WrongVisit extends WrongAt, ErrorCounts {
  /** Number of the visit in its replicate, as in passages.csv. */
  readonly number: number;
  readonly enter_us: number;
  readonly leave_us: number;
  readonly who: string;
  readonly kind: PassageKind;
  readonly direction: Direction;
}

/** A tally while nobody was there. */
export interface StrayTally extends WrongAt {
  readonly time_us: number;
  readonly direction: Direction;
}

/** More of one logic at one door in one replicate are only counted: whoever looks closer has enough to look at. */
export const MOST_KEPT = 500;

/** Verdicts come some time after the visit: so many openings are remembered at least. */
const OPENINGS = 256;

/** What is kept of one replicate: plain data. */
export interface WrongKept {
  readonly visits: readonly WrongVisit[];
  readonly strays: readonly StrayTally[];
  /** `all[door][logic]`: how many there were of both, kept or not. */
  readonly all: readonly (readonly number[])[];
}

export class WrongVisits {
  readonly visits: WrongVisit[] = [];
  readonly strays: StrayTally[] = [];
  private readonly all: number[][];
  /** Per door, when somebody entered the empty doorway: the latest, in order of time. */
  private readonly openings: number[][] = [];
  private readonly errors = { missed: 0, reversed: 0, extra: 0, invented: 0 };

  constructor(doors: number, logics: number) {
    this.all = Array.from({ length: doors }, () => Array.from({ length: logics }, () => 0));
  }

  kept(): WrongKept {
    const { visits, strays, all } = this;
    return { visits, strays, all };
  }

  /** Somebody enters the empty doorway. */
  opens(door: number, time_us: number): void {
    const own = (this.openings[door] ??= []);
    own.push(time_us);
    if (own.length > 2 * OPENINGS) own.splice(0, OPENINGS);
  }

  judged(door: number, logic: number, visit: Visit, verdict: Readonly<Verdict>): void {
    const { errors } = this;
    errorsOf(visit, verdict, errors);
    const { missed, reversed, extra, invented } = errors;
    if (wrongOf(errors) === 0 || !this.keeps(door, logic)) return;
    const { number, enter_us, leave_us, who, kind, direction } = visit;
    this.visits.push({
      door,
      logic,
      opened_us: this.openedBy(door, enter_us),
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
    this.strays.push({
      door,
      logic,
      opened_us: this.openedBy(door, time_us),
      time_us,
      direction: sign > 0 ? 'forward' : 'backward',
    });
  }

  private openedBy(door: number, time_us: number): number {
    return this.openings[door]?.findLast((opened) => opened <= time_us) ?? -1;
  }

  private keeps(door: number, logic: number): boolean {
    return this.all[door]![logic]!++ < MOST_KEPT;
  }
}
