/** What happens in a house besides everybody's own day: guests, outings, errands, robots, an infant's bedtime. Day by day. */
import { normal, pick, poissonGap, runningTotals, uniform } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import { HOUR_US, MINUTE_US } from '../../engine/time.js';
import { OUTSIDE } from '../outside.js';
import { spanHours } from './calendar.js';
import { Errands } from './errands.js';
import { habitsNamed } from './habits.js';
import type { House } from './house.js';
import { GuestMind, type RoomShares, roomShares } from './minds.js';
import type { Mover } from './mover.js';
import { Outings } from './outings.js';
import type { HouseParty, Visitors } from './schema.js';
import { stayOf } from './stays.js';
import type { Trips } from './trips.js';
import { guestName, isInfant } from './walkers.js';

type Guests = Pick<Visitors, 'name' | 'who' | 'group_of' | 'rooms' | 'moves_per_hour' | 'load'>;

/** Draws of one group of guests. */
const GROUP = { size: 0, room: 1, stay: 2, arrival: 3, who: 10 } as const;

export class Comings {
  private readonly outings: Outings;
  private readonly errands: Errands;

  /** Number of the next body: those who live here have the first. */
  private nextBody: number;

  /** @param stream the crowd's: what happens has one of its own each, by name */
  constructor(
    private readonly house: House,
    private readonly trips: Trips,
    private readonly stream: Stream,
  ) {
    const { people, pets, robots } = house.residents;
    this.nextBody = people.length + pets.length + robots.length;
    this.outings = new Outings(house, trips);
    this.errands = new Errands(house, trips);
  }

  /** Puts the first days on the clock; each day puts the next. */
  begin(): void {
    // What began the evening before may still be to come.
    this.day(-1);
    this.day(0);
    this.nextDay(1);
  }

  private nextDay(day: number): void {
    const { clock, calendar, clock_us } = this.house;
    const midnight_us = calendar.at(day, 0);
    if (midnight_us < clock_us)
      clock.at(midnight_us, () => {
        this.day(day);
        this.nextDay(day + 1);
      });
  }

  private day(day: number): void {
    const { household, calendar } = this.house;
    const drawsOf = (what: string, name: string): Stream => this.stream.child(what, name).nth(day + 1);
    for (const visitors of household.visitors)
      if (calendar.falls(day, visitors.days)) this.visitors(visitors, day, drawsOf('visitors', visitors.name));
    for (const party of household.parties)
      if (calendar.falls(day, [party.day])) this.party(party, day, drawsOf('party', party.name));
    for (const outing of household.outings) {
      if (!calendar.falls(day, outing.days)) continue;
      const moved_us = Math.round(normal(drawsOf('outing', outing.name).at(0), 0, outing.spread_min) * MINUTE_US);
      this.at(calendar.atClock(day, outing.at) + moved_us, (now_us) => this.outings.begin(outing, now_us));
    }
    for (const errand of household.errands) {
      const draws = drawsOf('errand', errand.name);
      const often = (errand.per_week / 7) * household.activity;
      this.poisson(day, errand.earliest, errand.latest, often, draws, (now_us, n) =>
        this.errands.carry(errand, now_us, draws.nth(n)),
      );
    }
    for (const robot of household.robots)
      if (calendar.falls(day, robot.days))
        this.at(calendar.atClock(day, robot.at), (now_us) => this.errands.round(robot, now_us));
    this.bedtimes(day);
  }

  private at(time_us: number, happen: (now_us: number) => void): void {
    const { clock, clock_us } = this.house;
    if (time_us >= clock.now && time_us < clock_us) clock.at(time_us, happen);
  }

  /** So many a day within the hours, as a Poisson process. */
  private poisson(
    day: number,
    from: string,
    to: string,
    per_day: number,
    draws: Stream,
    happen: (now_us: number, n: number) => void,
  ): void {
    const { calendar } = this.house;
    const start_us = calendar.atClock(day, from);
    const length_us = Math.round(spanHours(from, to) * HOUR_US);
    let gone_us = 0;
    for (let n = 0; ; n++) {
      gone_us += poissonGap(draws.at(n), per_day / length_us);
      if (gone_us >= length_us) return;
      this.at(start_us + Math.round(gone_us), (now_us) => happen(now_us, n));
    }
  }

  private visitors(visitors: Visitors, day: number, draws: Stream): void {
    const { per_day, from, to, stay_min, stay_law } = visitors;
    const often = per_day * this.house.household.activity;
    this.poisson(day, from, to, often, draws, (now_us, n) => {
      const group = draws.nth(n);
      const stay_us = stayOf(stay_law, stay_min, group.at(GROUP.stay));
      this.come(visitors, now_us, now_us + stay_us, groupSize(visitors, group.at(GROUP.size)), group);
    });
  }

  private party(party: HouseParty, day: number, draws: Stream): void {
    const { calendar } = this.house;
    const start_us = calendar.atClock(day, party.from);
    const end_us = start_us + Math.round(spanHours(party.from, party.to) * HOUR_US);
    const within_us = party.come_within_min * MINUTE_US;
    let left = party.guests;
    for (let n = 0; left > 0; n++) {
      const group = draws.nth(n);
      const size = Math.min(left, groupSize(party, group.at(GROUP.size)));
      left -= size;
      const comes_us = start_us + Math.round(uniform(group.at(GROUP.arrival), 0, within_us));
      const goes_us = end_us + Math.round(uniform(group.at(GROUP.stay), 0, within_us));
      this.at(comes_us, (now_us) => this.come(party, now_us, goes_us, size, group));
    }
  }

  /** A group comes in from outside. */
  private come(guests: Guests, time_us: number, end_us: number, size: number, draws: Stream): void {
    const shares = this.sharesOf(guests);
    if (shares.rooms.length === 0) return;
    const sorts = runningTotals(guests.who.map(({ share }) => share));
    const group: Mover[] = [];
    for (let i = 0; i < size; i++) {
      const { who } = guests.who[pick(draws.at(GROUP.who + i), sorts)] as (typeof guests.who)[number];
      group.push({
        number: this.nextBody++,
        name: guestName(guests, who),
        is: 'guest',
        carer: false,
        mind: new GuestMind(shares, guests.moves_per_hour * this.house.household.activity, end_us, draws.nth(i)),
        luggage: guests.load ?? null,
        group,
        room: OUTSIDE,
        busy: false,
        leaving: false,
        asleep: false,
        round: 0,
        visits: 0,
      });
    }
    const room = shares.rooms[pick(draws.at(GROUP.room), shares.totals)] as number;
    this.trips.setOut(group, room, time_us, this.trips.think);
  }

  private sharesOf({ rooms }: Guests): RoomShares {
    const { places } = this.house;
    return roomShares(
      rooms.flatMap(({ room, share }) => {
        const all = places.all(room);
        return all.map((one) => [one, share / all.length] as const);
      }),
    );
  }

  private bedtimes(day: number): void {
    const { household, habits, residents, calendar } = this.house;
    household.people.filter(isInfant).forEach((person, i) => {
      const { sleep } = habitsNamed(person.habits, habits);
      const infant = residents.infants[i];
      if (!sleep || !infant) return;
      const bed_us = calendar.atClock(day, sleep.from);
      const wake_us = calendar.endOf(day, sleep.from, sleep.to);
      this.at(bed_us, (now_us) => {
        infant.asleep = true;
        this.errands.putToBed(infant, now_us);
      });
      this.at(wake_us, (now_us) => {
        infant.asleep = false;
        this.errands.getUp(infant, now_us);
      });
    });
  }
}

function groupSize({ group_of: [least, most] }: Guests, u: number): number {
  return least + Math.floor(u * (most - least + 1));
}
