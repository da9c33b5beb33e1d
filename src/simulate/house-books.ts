/**
 * Every room's true and counted occupancy, kept in order of time over all doors.
 *
 * Doors finish their passages at different moments; events wait here until no door can bring an earlier one.
 */
import { OUTSIDE } from '../agents/crowd-plan.js';
import type { Visit } from '../agents/visit.js';
import { type Ledger, ledgers, tallyDelta } from '../counter/ledger.js';
import type { Direction } from '../counter/logic.js';
import { Agenda } from '../engine/agenda.js';
import type { Design } from '../scenario/schema.js';
import { HouseScorer, type HouseTimes } from '../score/house.js';
import { RoomTraceRecorder } from '../score/room-trace.js';
import type { RoomTimes } from '../score/rooms.js';
import { RoomScorer } from '../score/rooms.js';
import type { RoomTrace } from '../score/figures.js';
import { clockOf, roomIndex } from './plan.js';

/** `logic` is −1 for the truth. */
interface Entry {
  readonly room: number;
  readonly logic: number;
  readonly delta: number;
}

/** How many entries are booked between two clearings of the scorers' own buffers. */
const CLEAR_EVERY = 1024;

export class HouseBooks {
  private readonly agenda = new Agenda<Entry>();
  private readonly truth: number[];
  /** [room][logic][ledger] */
  private readonly counts: number[][][];
  private readonly scorers: RoomScorer[][][];
  /** [logic][ledger] */
  private readonly houses: readonly (readonly HouseScorer[])[];
  /** None unless traced. */
  private readonly recorders: RoomTraceRecorder[][][];
  private readonly sides: readonly { readonly from: number; readonly to: number }[];
  private readonly ledgers: readonly Ledger[];
  private booked = 0;

  constructor(
    private readonly design: Design,
    traced: boolean,
  ) {
    const span = clockOf(design);
    this.ledgers = design.ledgers.map((name) => ledgers[name]);
    this.sides = design.doors.map((door) => ({ from: roomIndex(design, door.from), to: roomIndex(design, door.to) }));
    this.truth = design.rooms.map((room) => room.people_at_start);
    const each = <T>(make: (room: number) => T): T[][][] =>
      design.rooms.map((_, room) => design.logics.map(() => design.ledgers.map(() => make(room))));
    this.counts = each((room) => this.truth[room] as number);
    this.recorders = traced ? each(() => new RoomTraceRecorder(span)) : [];
    this.houses = design.logics.map(() => design.ledgers.map(() => new HouseScorer(span, this.truth, this.truth)));
    this.scorers = design.rooms.map((_, room) =>
      design.logics.map((_logic, logic) =>
        design.ledgers.map(
          (_ledger, ledger) =>
            new RoomScorer(
              span,
              this.truth[room] as number,
              this.truth[room] as number,
              this.recorders[room]?.[logic]?.[ledger],
            ),
        ),
      ),
    );
  }

  crossing(visit: Visit): void {
    if (visit.cross_us === null) return;
    const { from, to } = this.sides[visit.door] as { from: number; to: number };
    const persons = visit.direction === 'forward' ? visit.persons : -visit.persons;
    this.put(visit.cross_us, from, -1, -persons);
    this.put(visit.cross_us, to, -1, persons);
  }

  tally(door: number, logic: number, time_us: number, direction: Direction): void {
    const { from, to } = this.sides[door] as { from: number; to: number };
    this.put(time_us, from, logic, tallyDelta(direction, 'from'));
    this.put(time_us, to, logic, tallyDelta(direction, 'to'));
  }

  /** Nothing before `until_us` is still to come. */
  advance(until_us: number): void {
    while (this.agenda.peekTime() < until_us) {
      const time_us = this.agenda.peekTime();
      this.book(time_us, this.agenda.take() as Entry);
    }
    if (this.booked < CLEAR_EVERY) return;
    this.booked = 0;
    for (const scorer of this.scorers.flat(2)) scorer.advance(until_us);
  }

  /** Ends the clock. */
  close(): RoomTimes[][][] {
    this.advance(Infinity);
    return this.scorers.map((logics) => logics.map((books) => books.map((scorer) => scorer.close())));
  }

  /** [logic][ledger], when the clock has ended. */
  closeHouses(): HouseTimes[][] {
    return this.houses.map((books) => books.map((house) => house.close()));
  }

  /** [room][ledger] with the first logic: counted minus true persons at even points of the clock, when it has ended. */
  drift(): number[][][] {
    return this.scorers.map(([first = []]) => first.map((scorer) => scorer.errors()));
  }

  /** Empty unless traced. */
  traces(): RoomTrace[] {
    const { rooms, logics, ledgers: names } = this.design;
    return this.recorders.flatMap((ofRoom, r) =>
      ofRoom.flatMap((ofLogic, l) =>
        ofLogic.map((recorder, g) => ({
          room: rooms[r]!.name,
          logic: logics[l]!.name,
          ledger: names[g]!,
          ...recorder.steps(),
        })),
      ),
    );
  }

  private put(time_us: number, room: number, logic: number, delta: number): void {
    if (room !== OUTSIDE) this.agenda.put(time_us, { room, logic, delta });
  }

  private book(time_us: number, { room, logic, delta }: Entry): void {
    this.booked++;
    const scorers = this.scorers[room] as RoomScorer[][];
    if (logic < 0) {
      const persons = (this.truth[room] as number) + delta;
      if (persons < 0) throw new Error(`room ${this.design.rooms[room]?.name}: true occupancy fell below zero`);
      this.truth[room] = persons;
      for (const books of scorers) for (const scorer of books) scorer.truth(time_us, persons);
      for (const books of this.houses) for (const house of books) house.truth(time_us, room, persons);
      return;
    }
    const counts = this.counts[room]?.[logic] as number[];
    for (let g = 0; g < this.ledgers.length; g++) {
      const next = (this.ledgers[g] as Ledger).post(counts[g] as number, delta);
      if (next === counts[g]) continue;
      counts[g] = next;
      scorers[logic]?.[g]?.counted(time_us, next);
      this.houses[logic]?.[g]?.counted(time_us, room, next);
    }
  }
}
