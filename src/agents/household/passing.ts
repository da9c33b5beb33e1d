/** A trip at a doorway: each member's visit is laid out there, in order, and put on the clock. */
import type { Clock } from '../../engine/clock.js';
import { uniform } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import { SECOND_US } from '../../engine/time.js';
import type { Body } from '../body.js';
import type { CrowdDoor } from '../crowd-plan.js';
import { abreastPlace, passageOf, stops } from '../doings.js';
import { Doorway } from '../doorway.js';
import type { Use } from '../doorway.js';
import { HEEL_LAG } from '../figures/household.js';
import { ABREAST_LAG, CLOSE_BEHIND_LAG } from '../figures/manner.js';
import { Hanging, swingVisit } from '../leaf/hanging.js';
import type { Swing } from '../leaf/leaf-keeper.js';
import type { Passage } from '../motion/passage.js';
import type { PassageKind, Walker } from '../schema.js';
import type { Unnumbered, VisitSink } from '../visit.js';
import { drawBody, fitsAbreast } from '../walkers.js';
import type { Mover, Trip } from './mover.js';
import { type Place, placesInRanks } from './ranks.js';
import { laden } from './walkers.js';

/** Draws of a visit's stream, after those of its passage. */
const DRAW = { lag: 50, wait: 51 } as const;
/** No entry of any mix. */
const NO_ENTRY = -1;

export class Passing {
  private readonly doorways: readonly Doorway[];
  private readonly hangings: readonly (Hanging | null)[];
  private made = 0;

  /** @param bodies the crowd's stream of bodies @param stream the crowd's own: what hangs in a door has one below it */
  constructor(
    private readonly doors: readonly CrowdDoor[],
    private readonly walkers: Readonly<Record<string, Walker>>,
    private readonly home_pace: number,
    private readonly bodies: Stream,
    stream: Stream,
    private readonly clock: Clock<(time_us: number) => void>,
    private readonly clock_us: number,
    private readonly sink: VisitSink,
  ) {
    this.doorways = doors.map((door) => new Doorway(door.opening));
    this.hangings = doors.map(({ name, hangs }, d) =>
      hangs ? new Hanging(hangs, d, stream.child('door', name, 'hanging')) : null,
    );
    doors.forEach((_, d) => {
      this.putGust('draught', d);
      this.putGust('gust', d);
    });
  }

  /**
   * Takes a trip through its next door.
   *
   * @returns when the last member has left the doorway, and whether they are on the other side then; null for whoever
   *   finds the leaf shut and can't open it
   */
  pass(trip: Trip, time_us: number): { left_us: number; crossed: boolean } | null {
    const index = trip.way[trip.at] as number;
    const door = this.doors[index] as CrowdDoor;
    const forward = door.from === trip.here;
    const doorway = this.doorways[index] as Doorway;
    doorway.forget(time_us);
    const bodies = trip.members.map((member, i) => this.bodyOf(trip, member, i, door));
    const leaf = this.hangings[index]?.leaf ?? null;
    if (leaf && (bodies[0] as Body).persons === 0 && !leaf.isOpen(time_us)) return null;
    const places = placesInRanks(bodies, door.opening, trip.abreast);
    let ahead: readonly Use[] = [];
    let rank: Use[] = [];
    let wanted_us = time_us;
    let left_us = time_us;
    let crossed = true;
    trip.members.forEach((member, i) => {
      const body = bodies[i] as Body;
      const place = places[i] as Place<Body>;
      const chance = this.bodies.nth(member.number).nth(1 + member.visits++);
      const doing = this.doing(trip, i, place);
      const side = doing === 'abreast' ? abreastPlace(place.at, place.rank, door.opening.width_m) : undefined;
      const passage = passageOf(doing ?? 'through', body, door.opening, !forward, chance, side);
      const duration_us = Math.round(passage.leave_s * SECOND_US);
      const atHeel = i > 0 && member.is === 'pet';
      if (place.at === 0 && !atHeel) {
        ahead = rank;
        rank = [];
      }
      const [beside] = rank;
      if (beside) wanted_us = Math.max(wanted_us, beside.enter_us + lag_us(atHeel ? HEEL_LAG : ABREAST_LAG, chance));
      if (!atHeel)
        wanted_us = Math.max(wanted_us, ...ahead.map((use) => after(use, place.at, body, duration_us, door, chance)));
      // A pet at heel keeps to its human, and squeezes past whoever is in the way.
      const free_us = atHeel ? wanted_us : doorway.admit(body, wanted_us, forward, duration_us, chance.at(DRAW.wait));
      const { enter_us, swing } = leaf ? leaf.admit(body, free_us) : { enter_us: free_us, swing: null };
      this.swings(index, swing);
      const kind = doing ?? doorway.company(body, forward, enter_us) ?? 'through';
      const leave_us = enter_us + duration_us;
      const use = { body, forward, stops: stops(kind), enter_us, leave_us };
      rank.unshift(use);
      doorway.use(use);
      if (leaf) this.clock.at(leaf.used(leave_us), (now_us) => this.swings(index, leaf.after(now_us)));
      if (passage.cross_s === null) crossed = false;
      left_us = Math.max(left_us, leave_us);
      const cross_us = passage.cross_s === null ? null : enter_us + Math.round(passage.cross_s * SECOND_US);
      const visit: Unnumbered = {
        number: 0,
        door: index,
        body: body.number,
        sort: body.sort,
        who: body.who,
        stature_m: body.stature_m,
        persons: body.persons,
        kind,
        entry: NO_ENTRY,
        direction: forward ? 'forward' : 'backward',
        enter_us,
        cross_us,
        leave_us,
      };
      this.enters(visit, body, passage);
    });
    return { left_us, crossed };
  }

  private enters(visit: Unnumbered, body: Body, passage: Passage): void {
    this.clock.at(visit.enter_us, () => {
      visit.number = ++this.made;
      this.sink(visit, body, passage);
    });
  }

  private putGust(what: 'draught' | 'gust', door: number): void {
    const hanging = this.hangings[door];
    const next_us = hanging?.next(what) ?? Infinity;
    if (next_us < this.clock_us)
      this.clock.at(next_us, (now_us) => {
        this.swings(door, hanging?.blown(what, now_us) ?? null);
        this.putGust(what, door);
      });
  }

  /** A leaf or a curtain swings: a visit of its own, of nobody. */
  private swings(door: number, swing: Swing | null): void {
    if (swing) this.enters(swingVisit(door, swing), swing.body, swing.passage);
  }

  /** What a member sets out to do here; null where it depends on whom they meet. */
  private doing({ members, at, manner, atHeel }: Trip, i: number, { rank }: Place<Body>): PassageKind | null {
    if (at === 0 && manner !== null && i === 0) return manner;
    if (rank.length === 2) return 'abreast';
    if (atHeel && (i === 0 || (members[i] as Mover).is === 'pet')) return 'at-heel';
    return members.length > 1 ? 'close-behind' : null;
  }

  private bodyOf(trip: Trip, member: Mover, i: number, { opening }: CrowdDoor): Body {
    const load = i === 0 && trip.load !== null ? trip.load : trip.outdoors ? member.luggage : null;
    const who = laden(member.name, load);
    const walker = this.walkers[who] as Walker;
    return drawBody(who, walker, member.number, opening, this.home_pace, this.bodies.nth(member.number));
  }
}

/**
 * When the rank behind may come at the earliest. The doorway keeps apart those who don't fit side by side; those who do
 * walk one behind the other all the same, and don't overtake.
 */
function after(ahead: Use, at: 0 | 1, body: Body, duration_us: number, { opening }: CrowdDoor, chance: Stream): number {
  if (!fitsAbreast(ahead.body, body, opening)) return ahead.enter_us;
  // The second of a rank comes after the first, who has kept the distance.
  const kept_us = at === 0 ? lag_us(CLOSE_BEHIND_LAG, chance) : 0;
  return Math.max(ahead.enter_us + kept_us, ahead.leave_us + kept_us - duration_us);
}

function lag_us({ value: { low, high } }: typeof ABREAST_LAG, chance: Stream): number {
  return Math.round(uniform(chance.at(DRAW.lag), low, high) * SECOND_US);
}
