/**
 * Every room's true and counted occupancy, kept in order of time over all doors.
 *
 * Doors finish their passages at different moments; events wait here until no door can bring an earlier one. At one
 * instant ledgers wake first, then persons and tallies come as they were put, then presence sensors look.
 */
import { OUTSIDE } from '../agents/outside.js';
import type { Visit } from '../agents/visit.js';
import type { Direction } from '../counter/logic.js';
import { Agenda } from '../engine/agenda.js';
import type { Stream } from '../engine/stream.js';
import type { Design } from '../scenario/schema.js';
import type { RoomTrace } from '../score/figures.js';
import type { HouseTimes } from '../score/house.js';
import type { RoomTimes } from '../score/rooms.js';
import { PresenceSensor } from '../sensors/presence/presence-sensor.js';
import { type Book, type Sides, openBooks } from './book.js';
import { clockOf, roomIndex } from './plan.js';

/** `logic` is −1 for the truth. */
interface Entry {
  readonly door: number;
  readonly logic: number;
  /** Persons or tallies, forward positive. */
  readonly forward: number;
}

/** A ledger's count of a room has changed. All by their index. */
export interface RoomCount {
  readonly time_us: number;
  readonly room: number;
  readonly logic: number;
  readonly ledger: number;
  readonly count: number;
}

/** How many entries are booked between two clearings of the scorers' own buffers. */
const CLEAR_EVERY = 1024;

export class HouseBooks {
  private readonly agenda = new Agenda<Entry>();
  private readonly truth: number[];
  /** [logic][ledger] */
  private readonly books: readonly (readonly Book[])[];
  private readonly all: readonly Book[];
  private readonly sides: readonly Sides[];
  private readonly sensors: readonly { readonly room: number; readonly sensor: PresenceSensor }[];
  private readonly sensorOf: readonly (PresenceSensor | null)[];
  /** Whether anything happens by the clock alone. */
  private readonly timed: boolean;
  private readonly span_us: number;
  private booked = 0;

  /**
   * @param peopleAtStart persons in each room, known to the ledgers
   * @param replicate the replicate's stream: presence sensors have their own below it
   * @param counted told whenever a ledger's count of a room has changed
   */
  constructor(
    private readonly design: Design,
    peopleAtStart: readonly number[],
    replicate: Stream,
    traced: boolean,
    private readonly counted?: (count: RoomCount) => void,
  ) {
    const { rooms, doors } = design;
    this.span_us = clockOf(design);
    this.sides = doors.map((door) => ({ from: roomIndex(design, door.from), to: roomIndex(design, door.to) }));
    this.truth = [...peopleAtStart];
    this.books = openBooks(design, this.sides, this.truth, traced);
    this.all = this.books.flat();
    this.sensorOf = rooms.map(({ name, presence }) =>
      presence ? new PresenceSensor(presence, replicate.child('room', name, 'presence')) : null,
    );
    this.sensors = this.sensorOf.flatMap((sensor, room) => (sensor ? [{ room, sensor }] : []));
    this.timed = this.sensors.length > 0 || this.all.some(({ ledger }) => ledger.wake_us < Infinity);
    for (const { room } of this.sensors) this.sense(0, room, this.truth[room]!);
  }

  crossing(visit: Visit): void {
    if (visit.cross_us === null || visit.persons === 0) return;
    const forward = visit.direction === 'forward' ? visit.persons : -visit.persons;
    this.agenda.put(visit.cross_us, { door: visit.door, logic: -1, forward });
  }

  tally(door: number, logic: number, time_us: number, direction: Direction): void {
    this.agenda.put(time_us, { door, logic, forward: direction === 'forward' ? 1 : -1 });
  }

  /** Nothing before `until_us` is still to come. */
  advance(until_us: number): void {
    const { agenda } = this;
    for (;;) {
      const time_us = agenda.peekTime();
      if (this.timed) this.timers(Math.min(time_us, until_us), time_us < until_us);
      if (time_us >= until_us) break;
      this.book(time_us, agenda.take() as Entry);
    }
    if (this.booked < CLEAR_EVERY) return;
    this.booked = 0;
    for (const { scorers } of this.all) for (const scorer of scorers) scorer.advance(until_us);
  }

  /** What every ledger says now. [logic][ledger][room] */
  counts(): number[][][] {
    return this.books.map((ofLogic) => ofLogic.map(({ ledger }) => [...ledger.counts]));
  }

  /** Ends the clock. [room][logic][ledger] */
  close(): RoomTimes[][][] {
    this.advance(this.span_us + 1);
    return this.design.rooms.map((_, room) =>
      this.books.map((ofLogic) => ofLogic.map(({ scorers }) => scorers[room]!.close())),
    );
  }

  /** [logic][ledger], when the clock has ended. */
  closeHouses(): HouseTimes[][] {
    return this.books.map((ofLogic) => ofLogic.map(({ house }) => house.close()));
  }

  /** [room][ledger] with the first logic: counted minus true persons at even points of the clock, when it has ended. */
  drift(): number[][][] {
    return this.design.rooms.map((_, room) => this.books[0]!.map(({ scorers }) => scorers[room]!.errors()));
  }

  /** Empty unless traced. */
  traces(): RoomTrace[] {
    const { rooms, logics, ledgers } = this.design;
    return rooms.flatMap((room, r) =>
      this.books.flatMap((ofLogic, l) =>
        ofLogic.flatMap(({ recorders }, g) => {
          const recorder = recorders[r];
          if (recorder === undefined) return [];
          return [{ room: room.name, logic: logics[l]!.name, ledger: ledgers[g]!.name, ...recorder.steps() }];
        }),
      ),
    );
  }

  /** What happens by the clock before `until_us`; ledgers wake at that very time too if something is booked then. */
  private timers(until_us: number, bookedThen: boolean): void {
    for (;;) {
      let wake_us = Infinity;
      let book: Book | null = null;
      for (const one of this.all) {
        if (one.ledger.wake_us >= wake_us) continue;
        wake_us = one.ledger.wake_us;
        book = one;
      }
      let look_us = Infinity;
      let looker: (typeof this.sensors)[number] | null = null;
      for (const one of this.sensors) {
        if (one.sensor.wake_us >= look_us) continue;
        look_us = one.sensor.wake_us;
        looker = one;
      }
      if (book !== null && wake_us <= look_us && (wake_us < until_us || (bookedThen && wake_us === until_us))) {
        book.ledger.wake();
        this.tell(book, wake_us);
      } else if (looker !== null && look_us < until_us) {
        const was = looker.sensor.occupied;
        looker.sensor.wake();
        this.said(look_us, looker.room, was);
      } else return;
      this.booked++;
    }
  }

  private book(time_us: number, { door, logic, forward }: Entry): void {
    this.booked++;
    const { from, to } = this.sides[door]!;
    if (logic < 0) {
      if (from !== OUTSIDE) this.moved(time_us, from, -forward);
      if (to !== OUTSIDE) this.moved(time_us, to, forward);
      return;
    }
    const direction = forward > 0 ? 'forward' : 'backward';
    for (const book of this.books[logic]!) {
      book.ledger.tally(time_us, door, direction);
      this.tell(book, time_us);
    }
  }

  private moved(time_us: number, room: number, delta: number): void {
    const persons = this.truth[room]! + delta;
    if (persons < 0) throw new Error(`room ${this.design.rooms[room]?.name}: true occupancy fell below zero`);
    this.truth[room] = persons;
    for (const { scorers, house } of this.all) {
      scorers[room]!.truth(time_us, persons);
      house.truth(time_us, room, persons);
    }
    if (this.sensorOf[room]) this.sense(time_us, room, persons);
  }

  private sense(time_us: number, room: number, persons: number): void {
    const sensor = this.sensorOf[room]!;
    const was = sensor.occupied;
    sensor.truth(time_us, persons);
    this.said(time_us, room, was);
  }

  /** Ledgers hear of a sensor when it says something else than before. */
  private said(time_us: number, room: number, was: boolean): void {
    const { occupied } = this.sensorOf[room]!;
    if (occupied === was) return;
    for (const book of this.all) {
      book.ledger.presence(time_us, room, occupied);
      this.tell(book, time_us);
    }
  }

  /** Scorers hear of the rooms whose count has changed. */
  private tell(book: Book, time_us: number): void {
    const { ledger, told, scorers, house } = book;
    const { counts } = ledger;
    for (let room = 0; room < told.length; room++) {
      const count = counts[room]!;
      if (count === told[room]) continue;
      told[room] = count;
      this.counted?.({ time_us, room, logic: book.logic, ledger: book.index, count });
      scorers[room]!.counted(time_us, count);
      house.counted(time_us, room, count);
    }
  }
}
