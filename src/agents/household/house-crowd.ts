/**
 * The crowd of a household: everybody who lives in the house or visits it, walking through its plan of rooms and doors.
 *
 * Each has a mind that says where to be next (minds.ts, itinerary.ts); trips.ts takes them there, comings.ts has what
 * happens besides. Nobody appears or vanishes but outside. Nothing here knows of beams.
 */
import { Clock } from '../../engine/clock.js';
import type { Stream } from '../../engine/stream.js';
import type { CrowdPlan } from '../crowd-plan.js';
import { Doorways, type Happening } from '../doorways.js';
import type { VisitSink } from '../visit.js';
import { Calendar } from './calendar.js';
import { Comings } from './comings.js';
import type { House } from './house.js';
import { Passing } from './passing.js';
import { Places } from './places.js';
import type { HouseholdPlan } from './plan.js';
import { residentsOf } from './residents.js';
import { Routes } from './route.js';
import { Trips } from './trips.js';

export class HouseCrowd {
  private readonly house: House;
  private readonly doorways: Doorways;
  private readonly trips: Trips;
  private readonly comings: Comings;
  /** Persons in each room when the clock starts. */
  readonly peopleAtStart: readonly number[];
  /** Parties that couldn't set out: none, a household's people are where they are. */
  readonly unmet: readonly number[];

  /** @param stream the replicate's crowd stream */
  constructor({ doors, walkers, clock_us, starts_at_h }: CrowdPlan, plan: HouseholdPlan, stream: Stream) {
    const { household, habits, rooms, starts_on } = plan;
    const clock = new Clock<Happening>();
    const calendar = new Calendar(starts_at_h, starts_on);
    const routes = new Routes(rooms.length, doors);
    const places = new Places(rooms, routes);
    const residents = residentsOf(plan, places, calendar, stream);
    this.house = { household, habits, doors, routes, places, calendar, residents, clock, clock_us };
    this.doorways = new Doorways(doors, clock, clock_us, stream);
    const passing = new Passing(doors, this.doorways, walkers, household.home_pace, stream.child('body'));
    this.trips = new Trips(this.house, passing, stream.child('trip'));
    this.comings = new Comings(this.house, this.trips, stream);
    const everybody = [...residents.people, ...residents.infants];
    this.peopleAtStart = rooms.map((_, room) => everybody.filter((one) => one.room === room).length);
    this.unmet = doors.map(() => 0);
  }

  /** Runs the clock to its end. No new visit starts after it; visits under way are given out whole. */
  run(sink: VisitSink): void {
    const { clock, clock_us, doors, residents } = this.house;
    this.doorways.tell(sink);
    doors.forEach((_, door) => this.doorways.blow(door));
    for (const mover of [...residents.people, ...residents.pets]) {
      const until_us = residents.begin_us.get(mover);
      if (until_us === undefined) clock.at(0, (time_us) => this.trips.think(mover, time_us));
      else this.trips.wait(mover, until_us);
    }
    this.comings.begin();
    clock.run(clock_us - 1, (happen, time_us) => happen(time_us));
  }
}
