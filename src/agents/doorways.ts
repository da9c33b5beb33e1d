/**
 * All doorways of a house over the clock: who may enter each when, what hangs there and is moved, and the visits, given
 * out as they begin. Whoever sends people through doors does it here.
 */
import type { Clock } from '../engine/clock.js';
import type { Stream } from '../engine/stream.js';
import type { Body } from './body.js';
import type { CrowdDoor } from './crowd-plan.js';
import type { Use } from './doorway.js';
import { Doorway } from './doorway.js';
import type { Wind } from './leaf/hanging.js';
import { Hanging } from './leaf/hanging.js';
import type { LeafKeeper, Swing } from './leaf/leaf-keeper.js';
import type { Passage } from './motion/passage.js';
import type { Unnumbered, VisitSink } from './visit.js';
import { NO_ENTRY, visitOf } from './visit.js';

/** What happens at its time on a crowd's clock. */
export type Happening = (time_us: number) => void;

export class Doorways {
  private readonly doorways: readonly Doorway[];
  private readonly hangings: readonly (Hanging | null)[];
  private sink: VisitSink = () => undefined;
  private visitsMade = 0;

  /** @param stream the crowd's: what hangs in a door has one below it @param clock_us no wind comes from then on */
  constructor(
    doors: readonly CrowdDoor[],
    private readonly clock: Clock<Happening>,
    private readonly clock_us: number,
    stream: Stream,
  ) {
    this.doorways = doors.map((door) => new Doorway(door.opening));
    this.hangings = doors.map(({ name, hangs }, d) =>
      hangs ? new Hanging(hangs, d, stream.child('door', name, 'hanging')) : null,
    );
  }

  /** Where visits go from now on. */
  tell(sink: VisitSink): void {
    this.sink = sink;
  }

  /** Puts the first draught and the first gust of a door on the clock; each puts the next. */
  blow(door: number): void {
    this.putWind(door, 'draught');
    this.putWind(door, 'gust');
  }

  at(door: number): Doorway {
    return this.doorways[door] as Doorway;
  }

  leafAt(door: number): LeafKeeper | null {
    return this.hangings[door]?.leaf ?? null;
  }

  /** A visit is laid out: it gets its number and is given out when it begins. */
  enters(visit: Unnumbered, body: Body, passage: Passage): void {
    this.clock.at(visit.enter_us, () => {
      visit.number = ++this.visitsMade;
      this.sink(visit, body, passage);
    });
  }

  /** A leaf or a curtain swings: a visit of its own, of nobody; it crosses nothing. */
  swings(door: number, swing: Swing | null): void {
    if (!swing) return;
    const { body, passage, enter_us, forward } = swing;
    this.enters(visitOf(door, body, passage, enter_us, forward, 'swing', NO_ENTRY), body, passage);
  }

  /** Records who passes: whoever comes later gives way to them, and the last may shut the leaf. */
  use(door: number, use: Use): void {
    this.at(door).use(use);
    const leaf = this.leafAt(door);
    if (leaf) this.clock.at(leaf.used(use.leave_us), (now_us) => this.swings(door, leaf.after(now_us)));
  }

  private putWind(door: number, what: Wind): void {
    const hanging = this.hangings[door];
    const next_us = hanging?.next(what) ?? Infinity;
    if (next_us >= this.clock_us) return;
    this.clock.at(next_us, (now_us) => {
      this.swings(door, hanging?.blown(what, now_us) ?? null);
      this.putWind(door, what);
    });
  }
}
