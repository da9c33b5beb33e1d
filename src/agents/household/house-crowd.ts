/**
 * The crowd of a household: everybody who lives in the house or visits it, walking through its plan of rooms and doors.
 *
 * Each has a mind that says where to be next and until when; to get there they walk from door to door, alone or
 * together. Nobody appears or vanishes but outside. Nothing here knows of beams.
 */
import { Clock } from '../../engine/clock.js';
import { uniform } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import { SECOND_US } from '../../engine/time.js';
import type { CrowdPlan } from '../crowd-plan.js';
import { OUTSIDE } from '../crowd-plan.js';
import { ABREAST_SHARE, FROM_SEAT, ROOM_PACE, SECOND_THOUGHT } from '../figures/household.js';
import type { VisitSink } from '../visit.js';
import { Calendar } from './calendar.js';
import { Comings } from './comings.js';
import { infantToCarry, mustFetch } from './infants.js';
import type { Infant, Mover, Trip } from './mover.js';
import { Passing } from './passing.js';
import { Places } from './places.js';
import type { HouseholdPlan } from './plan.js';
import { type Residents, residentsOf } from './residents.js';
import { Routes } from './route.js';
import { householdWalkers } from './walkers.js';

/** Draws of a trip's stream by purpose. */
const DRAW = { seat: 0, manner: 1, abreast: 2, thought: 3, heel: 10 } as const;

type Then = (member: Mover, time_us: number) => void;

export class HouseCrowd {
  readonly calendar: Calendar;
  readonly places: Places;
  readonly routes: Routes;
  readonly residents: Residents;
  readonly clock = new Clock<(time_us: number) => void>();
  private readonly chance: Stream;
  private readonly follows: ReadonlyMap<string, number>;
  private readonly sits: ReadonlyMap<string, number>;
  private readonly stream: Stream;
  private passing: Passing | null = null;
  private trips = 0;
  private bodies: number;
  /** Parties that couldn't set out: none, a household's people are where they are. */
  readonly unmet: readonly number[];

  /** @param stream the replicate's crowd stream */
  constructor(
    readonly plan: CrowdPlan,
    readonly house: HouseholdPlan,
    stream: Stream,
  ) {
    const { household, rooms, starts_on } = house;
    this.stream = stream;
    this.chance = stream.child('trip');
    this.calendar = new Calendar(plan.starts_at_h, starts_on);
    this.routes = new Routes(rooms.length, plan.doors);
    this.places = new Places(rooms, this.routes);
    this.residents = residentsOf(house, this.places, this.calendar, stream);
    const { people, pets, robots } = this.residents;
    this.bodies = people.length + pets.length + robots.length;
    this.follows = new Map(household.pets.map((pet) => [pet.name, pet.follows_share]));
    this.sits = new Map(household.pets.map((pet) => [pet.name, pet.sits_share]));
    this.unmet = plan.doors.map(() => 0);
  }

  /** Persons in each room when the clock starts. */
  get peopleAtStart(): number[] {
    const there = this.house.rooms.map(() => 0);
    for (const { room } of [...this.residents.people, ...this.residents.infants]) if (room !== OUTSIDE) there[room]!++;
    return there;
  }

  /** Runs the clock to its end. No new visit starts after it; visits under way are given out whole. */
  run(sink: VisitSink): void {
    const { clock_us, doors, walkers } = this.plan;
    const { household } = this.house;
    const everybody = householdWalkers(household, walkers);
    this.passing = new Passing(
      doors,
      everybody,
      household.home_pace,
      this.stream.child('body'),
      this.stream,
      this.clock,
      clock_us,
      sink,
    );
    const { people, pets, begin_us } = this.residents;
    for (const mover of [...people, ...pets]) {
      const until_us = begin_us.get(mover);
      if (until_us === undefined) this.clock.at(0, (time_us) => this.think(mover, time_us));
      else this.wait(mover, until_us);
    }
    new Comings(this, this.stream).begin();
    this.clock.run(clock_us - 1, (happen, time_us) => happen(time_us));
  }

  /** A number for somebody who is new here. */
  newBody(): number {
    return this.bodies++;
  }

  /** Somebody is free to do what they will. */
  think(mover: Mover, time_us: number): void {
    if (mover.busy) return;
    mover.round++;
    const stay = mover.mind.next(time_us, mover.room);
    if (stay === null) return this.leaveForGood(mover, time_us);
    mover.asleep = stay.asleep;
    const settle: Then = (member, now_us) => this.wait(member, Math.max(now_us + 1, stay.until_us));
    if (stay.room === mover.room) return settle(mover, time_us);
    const nursery = stay.room === OUTSIDE ? mustFetch([mover], this.residents) : null;
    const others: Then = (member, now_us) => (member === mover ? settle(member, now_us) : this.think(member, now_us));
    if (nursery === null) this.setOut([mover], stay.room, time_us, others);
    else this.setOut([mover], nursery, time_us, (_, now_us) => this.setOut([mover], stay.room, now_us, others));
  }

  /** Thinks again at some time, unless something else comes before. */
  wait(mover: Mover, until_us: number): void {
    mover.busy = false;
    const round = ++mover.round;
    if (until_us < this.plan.clock_us)
      this.clock.at(until_us, (time_us) => {
        if (mover.round === round) this.think(mover, time_us);
      });
  }

  /**
   * Some go to a room together, all from the same one; the first leads.
   *
   * @param then called for each member on arrival, pets that came along at heel included
   * @param load what the leader takes @param infant whom the leader carries, whatever else is known
   */
  setOut(
    members: readonly Mover[],
    goal: number,
    time_us: number,
    then: Then,
    load: string | null = null,
    infant: Infant | null = null,
  ): void {
    const leader = members[0] as Mover;
    const chance = this.chance.nth(this.trips++);
    const here = leader.room;
    const way = this.routes.way(here, goal) ?? [];
    const alone = members.length === 1;
    const heel =
      alone && leader.is !== 'pet' && leader.is !== 'robot' && goal !== OUTSIDE ? this.atHeel(leader, chance) : [];
    // Whoever has their hands full carries nobody.
    const carried = infant ?? (way.length > 0 && load === null ? infantToCarry(members, goal, this.residents) : null);
    if (carried) carried.carried = true;
    const together = [...members, ...heel];
    for (const member of together) {
      member.busy = true;
      member.leaving = goal === OUTSIDE && way.length > 0;
      member.round++;
    }
    const atHeel = together.slice(1).some((member) => member.is === 'pet');
    const outdoors = goal === OUTSIDE || here === OUTSIDE;
    const trip: Trip = {
      members: together,
      way,
      goal,
      load: load ?? (carried === null ? null : outdoors ? 'pram' : 'infant'),
      infant: carried,
      outdoors,
      abreast:
        together.length > 1 &&
        !atHeel &&
        load === null &&
        carried === null &&
        chance.at(DRAW.abreast) < ABREAST_SHARE.value,
      atHeel,
      at: 0,
      here,
      manner: alone && heel.length === 0 && load === null && carried === null ? this.manner(leader, chance) : null,
      arrived: then,
    };
    if (way.length === 0) return this.arrive(trip, time_us);
    const { low, high } = FROM_SEAT.value;
    const to_door_s = here === OUTSIDE ? 0 : uniform(chance.at(DRAW.seat), low, high) / ROOM_PACE.value;
    this.clock.at(time_us + Math.round(to_door_s * SECOND_US), (now_us) => this.atDoor(trip, now_us, chance));
  }

  private atDoor(trip: Trip, time_us: number, chance: Stream): void {
    const passed = (this.passing as Passing).pass(trip, time_us);
    // A pet or a robot before a shut leaf stays where it is.
    if (passed === null) return this.arrive(trip, time_us);
    const { left_us, crossed } = passed;
    this.clock.at(left_us, (now_us) => this.left(trip, crossed, now_us, chance));
  }

  private left(trip: Trip, crossed: boolean, time_us: number, chance: Stream): void {
    if (!crossed) {
      trip.manner = null;
      const { low, high } = SECOND_THOUGHT.value;
      const pause_us = Math.round(uniform(chance.at(DRAW.thought), low, high) * SECOND_US);
      this.clock.at(time_us + pause_us, (now_us) => this.atDoor(trip, now_us, chance));
      return;
    }
    const index = trip.way[trip.at] as number;
    const door = this.plan.doors[index] as (typeof this.plan.doors)[number];
    trip.here = door.from === trip.here ? door.to : door.from;
    trip.at++;
    for (const member of trip.members) member.room = trip.here;
    if (trip.infant) {
      trip.infant.room = trip.here;
      trip.infant.keeper = trip.here === OUTSIDE ? (trip.members[0] as Mover) : null;
    }
    const next = trip.way[trip.at];
    if (next === undefined) return this.arrive(trip, time_us);
    const next_zone_m = (this.plan.doors[next] as typeof door).opening.zone_m;
    const way_m = Math.max(0, this.routes.between_m(index, next) - door.opening.zone_m - next_zone_m);
    this.clock.at(time_us + Math.round((way_m / ROOM_PACE.value) * SECOND_US), (now_us) =>
      this.atDoor(trip, now_us, chance),
    );
  }

  private arrive(trip: Trip, time_us: number): void {
    for (const member of trip.members) member.busy = member.leaving = false;
    if (trip.infant) trip.infant.carried = false;
    for (const member of trip.members) {
      // A pet that came along has nothing to do yet; it stays for a while of its own.
      if (member.is === 'pet' && member !== trip.members[0] && trip.atHeel && trip.goal !== OUTSIDE)
        this.rest(member, time_us);
      else trip.arrived(member, time_us);
    }
  }

  /** Stays where it is for as long as its mind says it would stay somewhere. */
  private rest(pet: Mover, time_us: number): void {
    const stay = pet.mind.next(time_us, pet.room);
    // By night its bed is where it goes.
    if (stay?.asleep && stay.room !== pet.room) return this.think(pet, time_us);
    pet.asleep = stay?.asleep ?? false;
    this.wait(pet, Math.max(time_us + 1, stay?.until_us ?? time_us + 1));
  }

  /** Guests go when their time is up: together, as far as they are together. */
  private leaveForGood(mover: Mover, time_us: number): void {
    const here = mover.group.filter((one) => one !== mover && one.room === mover.room && !one.busy);
    this.setOut([mover, ...here], OUTSIDE, time_us, () => undefined);
  }

  private atHeel(leader: Mover, chance: Stream): Mover[] {
    const found = this.residents.pets.findIndex(
      (pet, i) =>
        pet.room === leader.room &&
        !pet.busy &&
        !pet.asleep &&
        chance.at(DRAW.heel + i) < (this.follows.get(pet.name) ?? 0),
    );
    return found < 0 ? [] : [this.residents.pets[found] as Mover];
  }

  private manner(leader: Mover, chance: Stream): Trip['manner'] {
    const u = chance.at(DRAW.manner);
    if (leader.is === 'robot') return null;
    if (leader.is === 'pet') return u < (this.sits.get(leader.name) ?? 0) ? 'linger' : null;
    const { turn_back_share, linger_share, reach_share } = this.house.household;
    if (u < turn_back_share) return 'turn-back';
    if (u < turn_back_share + linger_share) return 'linger';
    return u < turn_back_share + linger_share + reach_share ? 'reach' : null;
  }
}
