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
import { OUTSIDE } from './outside.js';
import { abreastPlace, passageOf, stops } from './doings.js';
import type { Use } from './doorway.js';
import { Doorways, type Happening } from './doorways.js';
import { ABREAST_LAG, CLOSE_BEHIND_LAG, STAGGERED_LAG } from './figures/manner.js';
import type { Party, Resident } from './party.js';
import { personsOf } from './party.js';
import { RoomPool } from './room-pool.js';
import type { PassageKind } from './schema.js';
import type { VisitSink } from './visit.js';
import { visitOf } from './visit.js';
import { drawBody, fitsAbreast, walkerNamed } from './walkers.js';

/** Draws of a party's stream by purpose. */
const PARTY_DRAW = { direction: 0, entry: 1, stay: 2, lag: 3, order: 4, wait: 5 } as const;

export class Crowd {
  private readonly clock = new Clock<Happening>();
  private readonly arrivals: readonly Arrivals[];
  private readonly doorways: Doorways;
  private readonly totals: readonly (readonly number[])[];
  private readonly pools: readonly RoomPool[];
  private readonly bodies: Stream;
  private readonly parties: readonly Stream[];
  private bodiesMade = 0;
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
    this.doorways = new Doorways(plan.doors, this.clock, plan.clock_us, stream);
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
    this.doorways.tell(sink);
    doors.forEach((_, door) => {
      this.putArrival(door, 0);
      this.doorways.blow(door);
    });
    // Times are whole microseconds: what happens at the clock's end itself doesn't happen any more.
    this.clock.run(clock_us - 1, (happen, time_us) => happen(time_us));
  }

  /** Puts the n-th arrival of a door on the clock; it puts the next. */
  private putArrival(door: number, n: number): void {
    const arrives_us = (this.arrivals[door] as Arrivals).next(this.plan.clock_us);
    if (arrives_us >= this.plan.clock_us) return;
    this.clock.at(arrives_us, (time_us) => {
      this.putArrival(door, n + 1);
      this.setOut(door, n, time_us);
    });
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
    const twoFit = bodies.length === 2 && fitsAbreast(bodies[0] as Body, bodies[1] as Body, door.opening);
    const doorway = this.doorways.at(party.door);
    doorway.forget(time_us);
    const leaf = this.doorways.leafAt(party.door);
    const uses: Use[] = [];
    let lastCross = -1;
    let lastLeave = -1;
    party.members.forEach((member, i) => {
      const body = bodies[i] as Body;
      const own = this.bodies.nth(member.number).nth(1 + member.trips++);
      const side = party.kind === 'abreast' && twoFit ? abreastPlace(i, bodies, door.opening.width_m) : undefined;
      const passage = passageOf(party.kind, body, door.opening, !party.forward, own, side);
      const duration_us = Math.round(passage.leave_s * SECOND_US);
      let wanted = time_us;
      const first = uses[0];
      if (first) {
        const lag = this.lag(party.kind, twoFit, chance.at(PARTY_DRAW.lag));
        wanted = first.enter_us + lag;
        // Nobody overtakes their own party either, where two don't fit.
        if (!twoFit) wanted = Math.max(wanted, first.leave_us + lag - duration_us);
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
      this.doorways.swings(party.door, swing);
      const visit = visitOf(party.door, body, passage, enter_us, party.forward, party.kind, party.entry);
      const { cross_us, leave_us } = visit;
      uses.push({ body, forward: party.forward, stops: stops(party.kind), enter_us, leave_us });
      this.doorways.enters(visit, body, passage);
      if (cross_us === null) this.comesHome(member, leave_us);
      else {
        lastCross = Math.max(lastCross, cross_us);
        lastLeave = Math.max(lastLeave, leave_us);
      }
    });
    for (const use of uses) this.doorways.use(party.door, use);
    if (lastCross >= 0) this.afterwards(party, door, lastCross, lastLeave, chance);
  }

  /** Drawn on the way out and kept for the way back, which is through the same door. */
  private bodyOf(member: Resident, { opening, traffic }: CrowdDoor): Body {
    const { who, walker, number } = member;
    return (member.body ??= drawBody(who, walker, number, opening, traffic.home_pace, this.bodies.nth(number)));
  }

  private lag(kind: PassageKind, twoFit: boolean, u: number): number {
    const { low, high } = kind === 'abreast' ? (twoFit ? ABREAST_LAG : STAGGERED_LAG).value : CLOSE_BEHIND_LAG.value;
    return Math.round(uniform(u, low, high) * SECOND_US);
  }

  private comesHome(resident: Resident, time_us: number): void {
    if (resident.home === OUTSIDE) return;
    this.clock.at(time_us, () => {
      resident.body = null;
      (this.pools[resident.home] as RoomPool).giveBack(resident);
    });
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
    const back = returned(party, kind);
    this.clock.at(Math.max(cross_us + Math.round(stay), leave_us), (time_us) => this.pass(back, time_us));
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
