/** One replicate: one crowd over one clock, through every door. */
import type { VisitSink } from '../agents/visit.js';
import { makeCrowd } from '../agents/make-crowd.js';
import type { OutsideLogics } from '../counter/make-logic.js';
import { Stream } from '../engine/stream.js';
import type { Design } from '../scenario/schema.js';
import type { RoomTrace } from '../score/figures.js';
import type { HourlyTrack } from '../score/hourly.js';
import type { ReplicateRecord } from '../score/replicate-record.js';
import { type WrongKept, WrongVisits } from '../score/wrong-visits.js';
import { DoorLine, type LineHooks } from './door-line.js';
import { HouseBooks } from './house-books.js';
import { LAST_US, houseRangers } from './house-rangers.js';
import { logicsAt } from './logics-at.js';
import type { EdgeRow, ReadingRow, Sinks } from './outcome.js';
import { clockOf, controllerOf, crowdPlan } from './plan.js';
import { RowOrder, tallyOrder } from './row-order.js';
import { tallyWay } from './tally-way.js';
import type { Watch } from './watch.js';

/** After so many visits all doors are brought up to date, so that rooms with several doors can be booked. */
const BOOK_EVERY = 64;

const NO_HOOKS = { edge: () => {} };

export interface ReplicateResult {
  readonly record: ReplicateRecord;
  /** [door][logic]: counted minus true net at even points of the clock. */
  readonly drift: readonly (readonly (readonly number[])[])[];
  /** [room][ledger], first logic: counted minus true persons at even points of the clock. */
  readonly room_drift: readonly (readonly (readonly number[])[])[];
  /** Per door. */
  readonly hourly: readonly Pick<HourlyTrack, 'forward' | 'backward'>[];
  /** Of the first replicate only. */
  readonly traces: readonly RoomTrace[];
  /** What went wrong, for a closer look. */
  readonly wrong: WrongKept;
}

export interface ReplicateOptions {
  /** Told of how far it is, from 0 to 1. */
  readonly progress?: ((share: number) => void) | undefined;
  /** Names the stream: what is learnt from is never what is judged. */
  readonly purpose?: 'replicate' | 'calibration';
  /** Gives the logics that are code of the user's own. */
  readonly outside?: OutsideLogics | undefined;
  /** Looks on closely. */
  readonly watch?: Watch | undefined;
}

/** Runs replicate `number` (from 1). Depends on the design and the number alone: any order, any worker. */
export function runReplicate(
  design: Design,
  number: number,
  sinks: Sinks,
  { progress, purpose = 'replicate', outside, watch }: ReplicateOptions = {},
): ReplicateResult {
  const stream = Stream.root(String(design.seed)).child(purpose, String(number));
  const clock_us = clockOf(design);
  const crowd = makeCrowd(crowdPlan(design), stream.child('crowd'));
  const logics = design.doors.map((door) => logicsAt(design, door, outside));
  const wrong = new WrongVisits(design.doors.length, design.logics.length);
  const books = new HouseBooks(design, crowd.peopleAtStart, stream, number === 1);
  const rows = orderedRows(number, sinks);
  const rangers = houseRangers(design, stream, {
    edge: (door, beam, time_us, level) => (lines[door] as DoorLine).rangerEdge(beam, time_us, level),
    ...((sinks.reading || watch?.reading || logics.some((ofDoor) => ofDoor.some(({ readings }) => readings))) && {
      reading: (door, beam, time_us, distance_um, near) => {
        rows.reading?.put({ door, beam, time_us, distance_um });
        watch?.reading?.(door, beam, time_us, distance_um, near);
        const line = lines[door] as DoorLine;
        if (line.wantsReadings) line.rangerReading(beam, time_us, distance_um);
      },
    }),
  });
  const lines = design.doors.map((door, d) => {
    const controller = controllerOf(design, door);
    const ofDoor = logics[d] as (typeof logics)[number];
    const arrivals = ofDoor.map((logic) =>
      tallyWay(controller, () => stream.child('door', door.name, 'tallies', logic.name)),
    );
    return new DoorLine(
      design,
      door,
      ofDoor,
      stream,
      {
        ...watchOf(d, watch),
        opens(start_us, moment) {
          wrong.opens(d, start_us);
          watch?.opens?.(d, start_us, {
            delay_us: moment.delay_us,
            snapshots: () => moment.snapshots(),
            sensors: () => moment.sensors(),
            rangers: () => rangers?.fork(NO_HOOKS, true) ?? null,
          });
        },
        judged(logic, visit, verdict) {
          wrong.judged(d, logic, visit, verdict);
          watch?.judged?.(d, logic, visit, verdict);
        },
        nobody(logic, time_us, sign) {
          wrong.nobody(d, logic, time_us, sign);
          watch?.nobody?.(d, logic, time_us, sign);
        },
        tally(logic, time_us, direction) {
          for (let times: number = (arrivals[logic] as () => number)(); times > 0; times--)
            books.tally(d, logic, time_us, direction);
          rows.tally?.put({ door: d, logic, time_us, direction });
        },
        ...((sinks.edge || watch?.edge) && {
          edge: (beam, time_us, level) => {
            rows.edge?.put({ door: d, beam, time_us, level });
            watch?.edge?.(d, beam, time_us, level);
          },
        }),
      },
      rangers,
    );
  });

  let visits = 0;
  const each: VisitSink = (visit, body, passage) => {
    sinks.passage?.(number, visit);
    watch?.visit?.(visit, body, passage);
    if (rangers) {
      rangers.until(visit.enter_us);
      rangers.visit(visit.door, visit, body, passage);
    }
    (lines[visit.door] as DoorLine).visit(visit, body, passage);
    books.crossing(visit);
    if (++visits % BOOK_EVERY === 0) {
      const known_us = Math.min(...lines.map((line) => line.advance(visit.enter_us)));
      books.advance(known_us);
      for (const ofKind of Object.values(rows)) ofKind.release(known_us);
      if (progress && visits % (BOOK_EVERY * 32) === 0) progress(visit.enter_us / clock_us);
    }
  };
  try {
    crowd.run(each);
  } catch (error) {
    // Whoever looks on has seen enough, or a logic failed.
    for (const line of lines) line.abandon();
    throw error;
  }
  rangers?.until(Math.max(...lines.map((line) => line.end_us(clock_us))) + LAST_US);
  const doors = lines.map((line, d) => line.close(clock_us, crowd.unmet[d] as number));
  for (const ofKind of Object.values(rows)) ofKind.release(Infinity);
  return {
    record: { doors, rooms: books.close(), houses: books.closeHouses() },
    room_drift: books.drift(),
    hourly: lines.map(({ hourly: { forward, backward } }) => ({ forward, backward })),
    drift: lines.map((line) => line.drift.map((track) => track.errors())),
    traces: books.traces(),
    wrong: wrong.kept(),
  };
}

/** What of a door the onlooker asked for: what nobody asked for costs nothing. */
function watchOf(d: number, watch: Watch | undefined): Partial<LineHooks> {
  if (!watch) return {};
  return {
    ...(watch.input && { input: (time_us, mask, readings) => watch.input?.(d, time_us, mask, readings) }),
    ...(watch.step && { step: (logic, one) => watch.step?.(d, logic, one) }),
  };
}

/** Of the kinds of rows that are wanted: all doors' in order of time. */
function orderedRows(number: number, sinks: Sinks) {
  return {
    ...(sinks.tally && { tally: tallyOrder((row) => sinks.tally?.(number, row)) }),
    ...(sinks.edge && { edge: new RowOrder<EdgeRow>((row) => sinks.edge?.(number, row)) }),
    ...(sinks.reading && { reading: new RowOrder<ReadingRow>((row) => sinks.reading?.(number, row)) }),
  };
}
