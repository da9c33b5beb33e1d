/** What somebody of the household does when asked: carrying things about, putting an infant to bed; and a robot's rounds. */
import type { Stream } from '../../engine/stream.js';
import { MINUTE_US } from '../../engine/time.js';
import { OUTSIDE } from '../crowd-plan.js';
import type { HouseCrowd } from './house-crowd.js';
import { infantToCarry } from './infants.js';
import type { Infant, Mover } from './mover.js';
import type { Errand, Robot } from './schema.js';

export class Errands {
  constructor(private readonly crowd: HouseCrowd) {}

  /** Somebody who is at home and free takes the thing from where it is to where it belongs. */
  carry(errand: Errand, time_us: number, draws: Stream): void {
    const { crowd } = this;
    const able = this.idle(time_us).filter((one) => infantToCarry([one], OUTSIDE, crowd.residents) === null);
    if (able.length === 0) return;
    const one = able[Math.floor(draws.at(0) * able.length)] as Mover;
    const from = crowd.places.nearest(errand.from, one.room);
    const to = crowd.places.nearest(errand.to, from ?? one.room);
    if (from === null || to === null) return;
    const think = (member: Mover, now_us: number): void => crowd.think(member, now_us);
    crowd.setOut([one], from, time_us, (member, now_us) =>
      member === one ? crowd.setOut([one], to, now_us, think, errand.load) : think(member, now_us),
    );
  }

  /** Whoever is with it takes it to its bed. */
  putToBed(infant: Infant, time_us: number): void {
    const { crowd } = this;
    const carer = this.idle(time_us).find((one) => one.carer && one.room === infant.room);
    if (!carer) return;
    crowd.setOut([carer], infant.bedroom, time_us, (one, now_us) => crowd.think(one, now_us), null, infant);
  }

  /** Somebody goes and looks after it; where they go next they take it along. */
  getUp(infant: Infant, time_us: number): void {
    const { crowd } = this;
    const carer = this.idle(time_us).find((one) => one.carer);
    if (!carer || carer.room === infant.room) return;
    crowd.setOut([carer], infant.room, time_us, (one, now_us) => crowd.think(one, now_us));
  }

  /** A robot does one room after the other and goes home. */
  round(robot: Robot, time_us: number): void {
    const { crowd } = this;
    const mover = crowd.residents.robots.find(({ name }) => name === robot.name);
    if (!mover || mover.busy) return;
    const rooms = robot.rooms.flatMap((word) => crowd.places.all(word));
    this.nextRoom(robot, mover, [...rooms, mover.room], time_us);
  }

  private nextRoom(robot: Robot, mover: Mover, rooms: readonly number[], time_us: number): void {
    const { crowd } = this;
    const [room, ...rest] = rooms;
    if (room === undefined) return;
    crowd.setOut([mover], room, time_us, (_, now_us) => {
      const on_us = now_us + Math.round(robot.minutes_per_room * MINUTE_US);
      mover.busy = true;
      if (rest.length === 0) mover.busy = false;
      else if (on_us < crowd.plan.clock_us)
        crowd.clock.at(on_us, (later_us) => this.nextRoom(robot, mover, rest, later_us));
    });
  }

  /** Residents at home who have nothing to do just now and hands free. */
  private idle(time_us: number): Mover[] {
    const { people } = this.crowd.residents;
    const burdened = new Set(
      this.crowd.house.household.people.filter(({ load }) => load !== undefined).map(({ name }) => name),
    );
    return people.filter(
      (one) => !one.busy && one.room !== OUTSIDE && one.mind.isFree(time_us) && !burdened.has(one.name),
    );
  }
}
