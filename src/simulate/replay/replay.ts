/**
 * A log instead of a simulation: what a controller saw goes through switching, logics, ledgers and score as a simulated
 * house would. Truth, where it is known, comes beside it.
 */
import { makeCrowd } from '../../agents/make-crowd.js';
import type { Visit } from '../../agents/visit.js';
import type { OutsideLogics } from '../../counter/make-logic.js';
import { Stream } from '../../engine/stream.js';
import { SECOND_US } from '../../engine/time.js';
import type { Design } from '../../scenario/schema.js';
import { WrongVisits } from '../../score/wrong-visits.js';
import { HouseBooks, type RoomCount } from '../house-books.js';
import { houseRangers } from '../house-rangers.js';
import { logicsAt } from '../logics-at.js';
import type { TallyRow } from '../outcome.js';
import { controllerOf, crowdPlan, longestDelay } from '../plan.js';
import type { ReplicateResult } from '../replicate.js';
import { tallyWay } from '../tally-way.js';
import { ReplayDoor } from './replay-door.js';

export interface ReplayOptions {
  readonly outside?: OutsideLogics | undefined;
  /**
   * Number of the replicate that a log of our own comes from, from 1: its restarts and lost tallies, which leave no trace in a
   * log, come again. Null for a log from a real house, in which nothing is made up.
   */
  readonly simulated: number | null;
  /** Whether levels are as a controller saw them, not yet to be switched from readings. */
  readonly switched: boolean;
  /** Where tallies and counts go as they come. */
  readonly tally?: (row: TallyRow) => void;
  readonly counted?: (count: RoomCount) => void;
}

/** After so many events the books are brought up to date. */
const BOOK_EVERY = 256;

export class Replay {
  /** Levels that came again without a change in between. */
  repeated = 0;
  private readonly doors: readonly ReplayDoor[];
  private readonly delays_us: readonly number[];
  private readonly lastLeaves_us: number[];
  private readonly books: HouseBooks;
  private readonly wrong: WrongVisits;
  private readonly unmet: readonly number[];
  private now_us = -Infinity;
  /** No tally before this is still to come. */
  told_us = -Infinity;
  private events = 0;

  /** @param design with all that is learnt before a run */
  constructor(
    private readonly design: Design,
    { outside, simulated, switched, tally, counted }: ReplayOptions,
  ) {
    const stream = Stream.root(String(design.seed)).child('replicate', String(simulated ?? 1));
    const { atStart, unmet } = peopleOf(design, stream, simulated !== null);
    this.unmet = unmet;
    this.books = new HouseBooks(design, atStart, stream, true, counted);
    this.wrong = new WrongVisits(design.doors.length, design.logics.length);
    const rangers = houseRangers(design, stream, { edge: () => {} });
    this.delays_us = design.doors.map((door) => longestDelay(design, door, rangers));
    this.lastLeaves_us = design.doors.map(() => -Infinity);
    this.doors = design.doors.map((door, d) => {
      const controller = controllerOf(design, door);
      const logics = logicsAt(design, door, outside);
      const arrivals = logics.map((logic) =>
        simulated === null
          ? () => 1
          : tallyWay(controller, () => stream.child('door', door.name, 'tallies', logic.name)),
      );
      const hooks = {
        tally: (logic: number, time_us: number, direction: TallyRow['direction']) => {
          for (let times: number = arrivals[logic]!(); times > 0; times--)
            this.books.tally(d, logic, time_us, direction);
          tally?.({ door: d, logic, time_us, direction });
        },
      };
      return new ReplayDoor(
        design,
        door,
        logics,
        this.delays_us[d]!,
        hooks,
        simulated === null ? null : stream,
        switched,
      );
    });
  }

  /** Somebody truly comes; visits in order of entering, and before any event later than that. */
  visit(visit: Visit): void {
    this.doors[visit.door]!.count.visit(visit);
    this.books.crossing(visit);
    this.lastLeaves_us[visit.door] = Math.max(this.lastLeaves_us[visit.door]!, visit.leave_us);
  }

  /** A beam changes; events in order of time. */
  edge(door: number, beam: number, time_us: number, level: 0 | 1): void {
    this.at(time_us);
    if (!this.doors[door]!.edge(beam, time_us, level)) this.repeated++;
  }

  /** A ranger is read. @param distance_um whole micrometres, −1 without echo */
  reading(door: number, beam: number, time_us: number, distance_um: number): void {
    this.at(time_us);
    this.doors[door]!.reading(beam, time_us, distance_um);
  }

  /** Nothing before `time_us` is still to come: what is over is counted, told and judged. */
  advance(time_us: number): void {
    for (const door of this.doors) door.advance(time_us);
    this.books.advance(time_us);
    this.told_us = Math.max(this.told_us, time_us);
  }

  /** What every ledger says of every room, as far as it has been advanced. [logic][ledger][room] */
  counts(): number[][][] {
    return this.books.counts();
  }

  /** Beams that are broken now, by door and beam. */
  broken(): { readonly door: number; readonly beam: number }[] {
    return this.doors.flatMap(({ mask }, door) =>
      this.design.doors[door]!.beams.flatMap((_, beam) => ((mask & (1 << beam)) !== 0 ? [{ door, beam }] : [])),
    );
  }

  /** The log has ended. @param clock_us end of the clock it covers */
  close(clock_us: number): ReplicateResult {
    const doors = this.doors.map((door, d) => {
      // As long as a simulation waits for the last edge to be read and every timer to run out.
      const end_us = Math.max(clock_us, this.lastLeaves_us[d]!, this.now_us) + 30 * SECOND_US + this.delays_us[d]!;
      door.end(end_us, end_us + door.count.latency_us);
      return { logics: door.count.close(), breaks: door.count.breaks, unmet_parties: this.unmet[d]! };
    });
    const { books } = this;
    const counts = this.doors.map(({ count }) => count);
    return {
      record: { doors, rooms: books.close(), houses: books.closeHouses() },
      drift: counts.map(({ drift }) => drift.map((track) => track.errors())),
      room_drift: books.drift(),
      hourly: counts.map(({ hourly: { forward, backward } }) => ({ forward, backward })),
      traces: books.traces(),
      wrong: this.wrong.kept(),
    };
  }

  private at(time_us: number): void {
    if (time_us < this.now_us) throw new RangeError('Replay: an event comes too late');
    this.now_us = time_us;
    if (++this.events % BOOK_EVERY === 0) this.advance(time_us);
  }
}

/**
 * Who is where at the start, and how many parties could not set out: of a simulated log as its crowd had it, for that
 * leaves no trace in a log.
 */
function peopleOf(
  design: Design,
  stream: Stream,
  simulated: boolean,
): { atStart: readonly number[]; unmet: readonly number[] } {
  if (!simulated)
    return { atStart: design.rooms.map((room) => room.people_at_start), unmet: design.doors.map(() => 0) };
  const crowd = makeCrowd(crowdPlan(design), stream.child('crowd'));
  const atStart = [...crowd.peopleAtStart];
  crowd.run(() => {});
  return { atStart, unmet: crowd.unmet };
}
