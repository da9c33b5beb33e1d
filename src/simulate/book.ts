/** Books of a house: one for each logic and ledger, with all that judges and draws what the ledger says. */
import { clockHours } from '../engine/time.js';
import type { HouseLedger } from '../counter/ledger/house-ledger.js';
import { makeLedger } from '../counter/ledger/make-ledger.js';
import type { Design } from '../scenario/schema.js';
import { HouseScorer } from '../score/house.js';
import { RoomTraceRecorder } from '../score/room-trace.js';
import { RoomScorer } from '../score/rooms.js';
import { ratesOf } from './calibration-rates.js';
import { clockOf } from './plan.js';

/** One ledger of one logic, and what has been told of it. */
export interface Book {
  readonly ledger: HouseLedger;
  /** Which logic's it is, and which of its ledgers. */
  readonly logic: number;
  readonly index: number;
  /** Per room: the count the scorer has. */
  readonly told: number[];
  readonly scorers: readonly RoomScorer[];
  readonly house: HouseScorer;
  /** Empty unless traced. */
  readonly recorders: readonly RoomTraceRecorder[];
}

/** The rooms a door joins, by index; OUTSIDE is none. */
export interface Sides {
  readonly from: number;
  readonly to: number;
}

/**
 * @param sides of each door
 * @param atStart persons in each room, known to the ledgers
 * @returns [logic][ledger]
 */
export function openBooks(
  design: Design,
  sides: readonly Sides[],
  atStart: readonly number[],
  traced: boolean,
): Book[][] {
  const { rooms, doors, logics, ledgers } = design;
  const span_us = clockOf(design);
  const places = rooms.map(({ name, presence }, r) => ({ name, start: atStart[r]!, presence: !!presence }));
  return logics.map((logic, l) => {
    const rated = sides.map((side, d) => ({ ...side, rates: ratesOf(design, doors[d]!.name, logic.name) }));
    const house = { rooms: places, doors: rated, starts_at_h: clockHours(design.starts_at) };
    return ledgers.map((choice, g): Book => {
      const ledger = makeLedger(choice, house);
      const recorders = traced ? rooms.map(() => new RoomTraceRecorder(span_us)) : [];
      const scorers = rooms.map(
        (_, room) => new RoomScorer(span_us, atStart[room]!, ledger.counts[room]!, recorders[room]),
      );
      const all = new HouseScorer(span_us, atStart, ledger.counts);
      return { ledger, logic: l, index: g, told: [...ledger.counts], scorers, house: all, recorders };
    });
  });
}
