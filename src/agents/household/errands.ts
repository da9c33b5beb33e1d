/** What somebody of the household does when asked: carrying things about, putting an infant to bed; and a robot's rounds. */
import type { Stream } from '../../engine/stream.js';
import { MINUTE_US } from '../../engine/time.js';
import { OUTSIDE } from '../outside.js';
import type { House } from './house.js';
import { infantToCarry, mustFetch } from './infants.js';
import type { Infant, Mover } from './mover.js';
import type { Errand, Robot } from './schema.js';
import type { Trips } from './trips.js';

/** Whoever has no hands free for an infant is asked again so much later. */
const ASK_AGAIN_US = 2 * MINUTE_US;

export class Errands {
  constructor(
    private readonly house: House,
    private readonly trips: Trips,
  ) {}

  /** Somebody who is at home and free takes the thing from where it is to where it belongs. */
  carry(errand: Errand, time_us: number, draws: Stream): void {
    const { house, trips } = this;
    const able = this.idle(time_us).filter(
      (one) =>
        infantToCarry([one], OUTSIDE, house.residents) === null &&
        (errand.to !== 'outside' || mustFetch([one], house.residents) === null),
    );
    if (able.length === 0) return;
    const one = able[Math.floor(draws.at(0) * able.length)] as Mover;
    const from = house.places.nearest(errand.from, one.room);
    const to = house.places.nearest(errand.to, from ?? one.room);
    if (from === null || to === null) return;
    trips.setOut([one], from, time_us, (member, now_us) =>
      member === one ? trips.setOut([one], to, now_us, trips.think, errand.load) : trips.think(member, now_us),
    );
  }

  /** Whoever is with it, or comes for it, takes it to its bed. */
  putToBed(infant: Infant, time_us: number): void {
    const { trips } = this;
    if (!infant.asleep || infant.room === infant.bedroom) return;
    this.later(time_us, (now_us) => this.putToBed(infant, now_us));
    if (infant.carried || infant.room === OUTSIDE) return;
    const carers = this.idle(time_us).filter(({ carer }) => carer);
    const carer = carers.find((one) => one.room === infant.room) ?? carers[0];
    if (!carer) return;
    const toBed = (one: Mover, now_us: number): void => {
      if (one !== carer || infant.carried || infant.room !== one.room) trips.think(one, now_us);
      else trips.setOut([one], infant.bedroom, now_us, trips.think, null, infant);
    };
    if (carer.room === infant.room) toBed(carer, time_us);
    else trips.setOut([carer], infant.room, time_us, toBed);
  }

  /** Somebody goes and looks after it, once anybody is up; where they go next they take it along. */
  getUp(infant: Infant, time_us: number): void {
    if (infant.asleep || infant.carried || infant.room === OUTSIDE) return;
    const carers = this.idle(time_us).filter(({ carer }) => carer);
    if (carers.some((one) => one.room === infant.room)) return;
    const [carer] = carers;
    if (!carer) this.later(time_us, (now_us) => this.getUp(infant, now_us));
    else this.trips.setOut([carer], infant.room, time_us, this.trips.think);
  }

  private later(time_us: number, happen: (now_us: number) => void): void {
    const { clock, clock_us } = this.house;
    if (time_us + ASK_AGAIN_US < clock_us) clock.at(time_us + ASK_AGAIN_US, happen);
  }

  /** A robot does one room after the other and goes home. */
  round(robot: Robot, time_us: number): void {
    const { residents, places } = this.house;
    const mover = residents.robots.find(({ name }) => name === robot.name);
    if (!mover || mover.busy) return;
    const rooms = robot.rooms.flatMap((word) => places.all(word));
    // Home is its dock, wherever a shut leaf kept it the day before.
    const dock = places.all(robot.docks_in)[0] ?? mover.room;
    this.nextRoom(robot, mover, [...rooms, dock], time_us);
  }

  private nextRoom(robot: Robot, mover: Mover, rooms: readonly number[], time_us: number): void {
    const { clock, clock_us } = this.house;
    const [room, ...rest] = rooms;
    if (room === undefined) return;
    this.trips.setOut([mover], room, time_us, (_, now_us) => {
      const on_us = now_us + Math.round(robot.minutes_per_room * MINUTE_US);
      mover.busy = true;
      if (rest.length === 0) mover.busy = false;
      else if (on_us < clock_us) clock.at(on_us, (later_us) => this.nextRoom(robot, mover, rest, later_us));
    });
  }

  /** Residents at home who have nothing to do just now and hands free. */
  private idle(time_us: number): Mover[] {
    const { people } = this.house.residents;
    const burdened = new Set(
      this.house.household.people.filter(({ load }) => load !== undefined).map(({ name }) => name),
    );
    return people.filter(
      (one) => !one.busy && one.room !== OUTSIDE && one.mind.isFree(time_us) && !burdened.has(one.name),
    );
  }
}
