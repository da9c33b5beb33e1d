/**
 * The crowd: who comes when, and what they truly do.
 *
 * Parties set out by each door's traffic, pass, stay and return. One event queue drives all doors; visits come out in
 * order of entering. Nothing here knows of beams: the same seed gives the same crowd whatever is mounted in the frames.
 */
import { Clock } from '../engine/clock.js';
import { exponential, pick, runningTotals, uniform } from '../engine/distributions.js';
import type { Stream } from '../engine/stream.js';
import { MINUTE_US, SECOND_US } from '../engine/time.js';
import { Arrivals } from './arrivals.js';
import type { Body } from './body.js';
import type { CrowdDoor, CrowdPlan } from './crowd-plan.js';
import { OUTSIDE } from './crowd-plan.js';
import { abreastPlace, passageOf, stops } from './doings.js';
import type { Use } from './doorway.js';
import { Doorway } from './doorway.js';
import { ABREAST_LAG, CLOSE_BEHIND_LAG, STAGGERED_LAG } from './figures/manner.js';
import { Hanging, swingVisit } from './leaf/hanging.js';
import type { Swing } from './leaf/leaf-keeper.js';
import type { Passage } from './motion/passage.js';
import type { Party, Resident } from './party.js';
import { personsOf } from './party.js';
import { RoomPool } from './rooms.js';
import type { PassageKind } from './schema.js';
import type { Unnumbered, VisitSink } from './visit.js';
import { drawBody, fitsAbreast, walkerNamed } from './walkers.js';

/** Draws of a party's stream by purpose. */
const PARTY_DRAW = { direction: 0, entry: 1, stay: 2, lag: 3, order: 4, wait: 5 } as const;

type Happening =
  | { readonly what: 'arrival'; readonly door: number; readonly n: number }
  | { readonly what: 'party'; readonly party: Party }
  | { readonly what: 'home'; readonly resident: Resident }
  | { readonly what: 'left'; readonly door: number }
  | { readonly what: 'draught'; readonly door: number }
  | { readonly what: 'gust'; readonly door: number }
  | { readonly what: 'enter'; readonly visit: Unnumbered; readonly body: Body; readonly passage: Passage };

export class Crowd {
  private readonly clock = new Clock<Happening>();
  private readonly arrivals: readonly Arrivals[];
  private readonly doorways: readonly Doorway[];
  private readonly hangings: readonly (Hanging | null)[];
  private readonly totals: readonly (readonly number[])[];
  private readonly pools: readonly RoomPool[];
  private readonly bodies: Stream;
  private readonly parties: readonly Stream[];
  private bodiesMade = 0;
  private visitsMade = 0;
  /** Per door: parties that found too few people in the room they were to set out from. */
  readonly unmet: number[];

  /** @param stream the replicate's crowd stream */
  constructor(
    private readonly plan: CrowdPlan,
    stream: Stream,
  ) {
    this.bodies = stream.child('body');
    this.parties = plan.doors.map((door) => stream.child('door', door.name, 'party'));
    this.arrivals = plan.doors.map(
      (door) => new Arrivals(door.traffic, plan.starts_at_h, stream.child('door', door.name, 'arrivals')),
    );
    this.doorways = plan.doors.map((door) => new Doorway(door.opening));
    this.hangings = plan.doors.map(({ name, hangs }, d) =>
      hangs ? new Hanging(hangs, d, stream.child('door', name, 'hanging')) : null,
    );
    this.totals = plan.doors.map((door) => runningTotals(door.traffic.mix.map((entry) => entry.share)));
    this.pools = plan.people_at_start.map((n) => new RoomPool(n));
    this.unmet = plan.doors.map(() => 0);
  }

  get peopleAtStart(): readonly number[] {
    return this.plan.people_at_start;
  }

  /** Runs the clock to its end. No new visit starts after it; visits under way are given out whole. */
  run(sink: VisitSink): void {
    const { clock_us, doors } = this.plan;
    doors.forEach((_, door) => {
      this.putArrival(door, 0);
      this.putGust('draught', door);
      this.putGust('gust', door);
    });
    // Times are whole microseconds: what happens at the clock's end itself doesn't happen any more.
    this.clock.run(clock_us - 1, (next, time) => this.happen(next, time, sink));
  }

  private happen(next: Happening, time: number, sink: VisitSink): void {
    if (next.what === 'enter') {
      next.visit.number = ++this.visitsMade;
      sink(next.visit, next.body, next.passage);
    } else if (next.what === 'party') {
      this.pass(next.party, time);
    } else if (next.what === 'left') {
      this.swings(next.door, this.hangings[next.door]?.leaf?.after(time) ?? null);
    } else if (next.what === 'draught' || next.what === 'gust') {
      this.swings(next.door, this.hangings[next.door]?.blown(next.what, time) ?? null);
      this.putGust(next.what, next.door);
    } else if (next.what === 'home') {
      next.resident.body = null;
      (this.pools[next.resident.home] as RoomPool).giveBack(next.resident);
    } else {
      this.putArrival(next.door, next.n + 1);
      this.setOut(next.door, next.n, time);
    }
  }

  private putGust(what: 'draught' | 'gust', door: number): void {
    const time = this.hangings[door]?.next(what) ?? Infinity;
    if (time < this.plan.clock_us) this.clock.at(time, { what, door });
  }

  /** A leaf or a curtain swings: a visit of its own, of nobody. */
  private swings(door: number, swing: Swing | null): void {
    if (!swing) return;
    const { body, passage, enter_us } = swing;
    this.clock.at(enter_us, { what: 'enter', visit: swingVisit(door, swing), body, passage });
  }

  private putArrival(door: number, n: number): void {
    const time = (this.arrivals[door] as Arrivals).next(this.plan.clock_us);
    if (time < this.plan.clock_us) this.clock.at(time, { what: 'arrival', door, n });
  }

  /** A party sets out: who, which way, what for. */
  private setOut(doorIndex: number, n: number, time_us: number): void {
    const door = this.plan.doors[doorIndex] as CrowdDoor;
    const chance = (this.parties[doorIndex] as Stream).nth(n);
    const forward = chance.at(PARTY_DRAW.direction) < door.traffic.forward_share;
    const entry = pick(chance.at(PARTY_DRAW.entry), this.totals[doorIndex] as readonly number[]);
    const { who, kind } = door.traffic.mix[entry] as (typeof door.traffic.mix)[number];
    const size = kind === 'abreast' || kind === 'close-behind' ? 2 : 1;
    const members = this.gather(forward ? door.from : door.to, who, size);
    if (!members) {
      this.unmet[doorIndex]!++;
      return;
    }
    const others = kind === 'against' ? this.gather(forward ? door.to : door.from, who, 1) : null;
    const party: Party = {
      door: doorIndex,
      members,
      forward,
      kind,
      entry,
      returning: false,
      arrival: n,
      opposite: false,
    };
    if (kind !== 'against') this.pass(party, time_us);
    else if (!others) this.pass({ ...party, kind: 'through' }, time_us);
    else {
      // Whoever passes second gives way to the first.
      const against: Party = { ...party, members: others, forward: !forward, opposite: true };
      const pair = chance.at(PARTY_DRAW.order) < 0.5 ? [party, against] : [against, party];
      for (const one of pair) this.pass(one, time_us);
    }
  }

  private gather(room: number, who: string, size: number): Resident[] | null {
    const walker = walkerNamed(who, this.plan.walkers);
    const persons = personsOf(walker);
    const fresh = (): Resident => ({
      number: this.bodiesMade++,
      who,
      walker,
      persons,
      home: room,
      trips: 0,
      body: null,
    });
    if (room === OUTSIDE) return Array.from({ length: size }, fresh);
    const pool = this.pools[room] as RoomPool;
    const members: Resident[] = [];
    for (let i = 0; i < size; i++) {
      const one = pool.take(who, walker);
      if (one === null) {
        for (const member of members) pool.giveBack(member);
        return null;
      }
      members.push(one === 'new' ? fresh() : one);
    }
    return members;
  }

  /** A party passes: each member's visit is laid out, and what follows from it is put on the agenda. */
  private pass(party: Party, time_us: number): void {
    const door = this.plan.doors[party.door] as CrowdDoor;
    const chance = (this.parties[party.door] as Stream).nth(party.arrival).nth(tripOf(party));
    const bodies = party.members.map((member) => this.bodyOf(member, door));
    const free = bodies.length === 2 && fitsAbreast(bodies[0] as Body, bodies[1] as Body, door.opening);
    const doorway = this.doorways[party.door] as Doorway;
    doorway.forget(time_us);
    const leaf = this.hangings[party.door]?.leaf ?? null;
    const uses: Use[] = [];
    let lastCross = -1;
    let lastLeave = -1;
    party.members.forEach((member, i) => {
      const body = bodies[i] as Body;
      const visits = this.bodies.nth(member.number).nth(1 + member.trips++);
      const side = party.kind === 'abreast' && free ? abreastPlace(i, bodies, door.opening.width_m) : undefined;
      const passage = passageOf(party.kind, body, door.opening, !party.forward, visits, side);
      const duration_us = Math.round(passage.leave_s * SECOND_US);
      let wanted = time_us;
      const first = uses[0];
      if (first) {
        const lag = this.lag(party.kind, free, chance.at(PARTY_DRAW.lag));
        wanted = first.enter_us + lag;
        // Nobody overtakes their own party either, where two don't fit.
        if (!free) wanted = Math.max(wanted, first.leave_us + lag - duration_us);
      }
      // Test rods pass through each other; people wait until the doorway is free for them.
      const free_us =
        body.sort === 'test-rod'
          ? wanted
          : doorway.admit(body, wanted, party.forward, duration_us, chance.at(PARTY_DRAW.wait));
      const { enter_us, swing } = leaf ? leaf.admit(body, free_us) : { enter_us: free_us, swing: null };
      if (enter_us === Infinity) {
        // A shut leaf keeps out what can't open it: it goes back to where it belongs.
        this.unmet[party.door]!++;
        this.comesHome(member, time_us);
        return;
      }
      this.swings(party.door, swing);
      const cross_us = passage.cross_s === null ? null : enter_us + Math.round(passage.cross_s * SECOND_US);
      const leave_us = enter_us + duration_us;
      uses.push({ body, forward: party.forward, stops: stops(party.kind), enter_us, leave_us });
      const visit: Unnumbered = {
        number: 0,
        door: party.door,
        body: body.number,
        sort: body.sort,
        who: body.who,
        stature_m: body.stature_m,
        persons: body.persons,
        kind: party.kind,
        entry: party.entry,
        direction: party.forward ? 'forward' : 'backward',
        enter_us,
        cross_us,
        leave_us,
      };
      this.clock.at(enter_us, { what: 'enter', visit, body, passage });
      if (cross_us === null) this.comesHome(member, leave_us);
      else {
        lastCross = Math.max(lastCross, cross_us);
        lastLeave = Math.max(lastLeave, leave_us);
      }
    });
    for (const use of uses) {
      doorway.use(use);
      if (leaf) this.clock.at(leaf.used(use.leave_us), { what: 'left', door: party.door });
    }
    if (lastCross >= 0) this.afterwards(party, door, lastCross, lastLeave, chance);
  }

  /** Drawn on the way out and kept for the way back, which is through the same door. */
  private bodyOf(member: Resident, { opening, traffic }: CrowdDoor): Body {
    const { who, walker, number } = member;
    return (member.body ??= drawBody(who, walker, number, opening, traffic.home_pace, this.bodies.nth(number)));
  }

  private lag(kind: PassageKind, free: boolean, u: number): number {
    const { low, high } = kind === 'abreast' ? (free ? ABREAST_LAG : STAGGERED_LAG).value : CLOSE_BEHIND_LAG.value;
    return Math.round(uniform(u, low, high) * SECOND_US);
  }

  private comesHome(resident: Resident, time_us: number): void {
    if (resident.home !== OUTSIDE) this.clock.at(time_us, { what: 'home', resident });
  }

  /** Home again, or a stay and then the way back; neither before the last has left the doorway. */
  private afterwards(party: Party, door: CrowdDoor, cross_us: number, leave_us: number, chance: Stream): void {
    if (party.returning) {
      for (const member of party.members) this.comesHome(member, leave_us);
      return;
    }
    if (door.traffic.one_way) return;
    const stay = exponential(chance.at(PARTY_DRAW.stay), door.traffic.stay_mean_min * MINUTE_US);
    const kind = party.kind === 'abreast' || party.kind === 'close-behind' ? party.kind : 'through';
    this.clock.at(Math.max(cross_us + Math.round(stay), leave_us), {
      what: 'party',
      party: returned(party, kind),
    });
  }
}

/** The same party on its way back; written out, for a spread copy is an object of another shape and slows what reads it. */
function returned({ door, members, forward, entry, arrival, opposite }: Party, kind: PassageKind): Party {
  return { door, members, forward: !forward, kind, entry, returning: true, arrival, opposite };
}

/** Which of an arrival's trips this is: each has draws of its own. */
function tripOf({ returning, opposite }: Party): number {
  return (returning ? 1 : 0) + (opposite ? 2 : 0);
}
