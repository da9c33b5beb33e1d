/**
 * Trips through a house: a mind says where somebody is to be next and until when; to get there they walk from door to
 * door, alone or together, and stay until it thinks again.
 */
import { uniform } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import { SECOND_US } from '../../engine/time.js';
import type { CrowdDoor } from '../crowd-plan.js';
import { OUTSIDE } from '../outside.js';
import { ABREAST_SHARE, FROM_SEAT, ROOM_PACE, SECOND_THOUGHT } from '../figures/household.js';
import type { House } from './house.js';
import { infantToCarry, mustFetch } from './infants.js';
import type { Infant, Mover, Trip } from './mover.js';
import type { Passing } from './passing.js';

/** Draws of a trip's stream by purpose. */
const DRAW = { seat: 0, manner: 1, abreast: 2, thought: 3, heel: 10 } as const;

/** What becomes of somebody who has arrived. */
export type Then = (member: Mover, time_us: number) => void;

export class Trips {
  private made = 0;
  private readonly follows: ReadonlyMap<string, number>;
  private readonly sits: ReadonlyMap<string, number>;

  /** @param chance the crowd's stream of trips */
  constructor(
    private readonly house: House,
    private readonly passing: Passing,
    private readonly chance: Stream,
  ) {
    const { pets } = house.household;
    this.follows = new Map(pets.map((pet) => [pet.name, pet.follows_share]));
    this.sits = new Map(pets.map((pet) => [pet.name, pet.sits_share]));
  }

  /** Somebody is free to do what they will: their mind says what. */
  readonly think: Then = (mover, time_us) => {
    if (mover.busy) return;
    mover.round++;
    const stay = mover.mind.next(time_us, mover.room);
    if (stay === null) return this.leaveForGood(mover, time_us);
    mover.asleep = stay.asleep;
    const settle: Then = (member, now_us) => this.wait(member, Math.max(now_us + 1, stay.until_us));
    if (stay.room === mover.room) return settle(mover, time_us);
    const nursery = stay.room === OUTSIDE ? mustFetch([mover], this.house.residents) : null;
    const others: Then = (member, now_us) => (member === mover ? settle(member, now_us) : this.think(member, now_us));
    if (nursery === null) this.setOut([mover], stay.room, time_us, others);
    else this.setOut([mover], nursery, time_us, (_, now_us) => this.setOut([mover], stay.room, now_us, others));
  };

  /** Thinks again at some time, unless something else comes before. */
  wait(mover: Mover, until_us: number): void {
    mover.busy = false;
    const round = ++mover.round;
    if (until_us < this.house.clock_us)
      this.house.clock.at(until_us, (time_us) => {
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
    const chance = this.chance.nth(this.made++);
    const here = leader.room;
    const way = this.house.routes.way(here, goal) ?? [];
    const alone = members.length === 1;
    const heel =
      alone && leader.is !== 'pet' && leader.is !== 'robot' && goal !== OUTSIDE ? this.atHeel(leader, chance) : [];
    // Whoever has their hands full carries nobody.
    const carried =
      infant ?? (way.length > 0 && load === null ? infantToCarry(members, goal, this.house.residents) : null);
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
    this.house.clock.at(time_us + Math.round(to_door_s * SECOND_US), (now_us) => this.atDoor(trip, now_us, chance));
  }

  private atDoor(trip: Trip, time_us: number, chance: Stream): void {
    const passed = this.passing.pass(trip, time_us);
    // A pet or a robot before a shut leaf stays where it is.
    if (passed === null) return this.arrive(trip, time_us);
    const { left_us, crossed } = passed;
    this.house.clock.at(left_us, (now_us) => this.left(trip, crossed, now_us, chance));
  }

  private left(trip: Trip, crossed: boolean, time_us: number, chance: Stream): void {
    if (!crossed) {
      trip.manner = null;
      const { low, high } = SECOND_THOUGHT.value;
      const pause_us = Math.round(uniform(chance.at(DRAW.thought), low, high) * SECOND_US);
      this.house.clock.at(time_us + pause_us, (now_us) => this.atDoor(trip, now_us, chance));
      return;
    }
    const index = trip.way[trip.at] as number;
    const door = this.house.doors[index] as CrowdDoor;
    trip.here = door.from === trip.here ? door.to : door.from;
    trip.at++;
    for (const member of trip.members) member.room = trip.here;
    if (trip.infant) {
      trip.infant.room = trip.here;
      trip.infant.keeper = trip.here === OUTSIDE ? (trip.members[0] as Mover) : null;
    }
    const next = trip.way[trip.at];
    if (next === undefined) return this.arrive(trip, time_us);
    const next_zone_m = (this.house.doors[next] as CrowdDoor).opening.zone_m;
    const way_m = Math.max(0, this.house.routes.between_m(index, next) - door.opening.zone_m - next_zone_m);
    this.house.clock.at(time_us + Math.round((way_m / ROOM_PACE.value) * SECOND_US), (now_us) =>
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

  /** Stays where it is for as long as its mind says it would stay somewhere; unless its human has gone on with it already. */
  private rest(pet: Mover, time_us: number): void {
    if (pet.busy) return;
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
    const found = this.house.residents.pets.findIndex(
      (pet, i) =>
        pet.room === leader.room &&
        !pet.busy &&
        !pet.asleep &&
        chance.at(DRAW.heel + i) < (this.follows.get(pet.name) ?? 0),
    );
    return found < 0 ? [] : [this.house.residents.pets[found] as Mover];
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
