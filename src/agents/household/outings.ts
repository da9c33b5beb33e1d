/** Leaving the house together and coming home again: the school run, a walk with the dog. */
import { MINUTE_US, SECOND_US } from '../../engine/time.js';
import type { CrowdDoor } from '../crowd-plan.js';
import { OUTSIDE } from '../outside.js';
import type { House } from './house.js';
import { mustFetch } from './infants.js';
import type { Mover } from './mover.js';
import type { Outing } from './schema.js';
import type { Trips } from './trips.js';

/** Whoever is just walking from one room to another is waited for. */
const WAIT_US = 20 * SECOND_US;
const MOST_WAITS = 15;

export class Outings {
  constructor(
    private readonly house: House,
    private readonly trips: Trips,
  ) {}

  /** They set out, if there is anybody who can; those on the way through the house are waited for a few minutes. */
  begin(outing: Outing, time_us: number, waits = 0): void {
    const { people, pets } = this.house.residents;
    const named = people.filter(({ name }) => outing.who.includes(name));
    const able = named.filter((one) => one.room !== OUTSIDE && one.mind.isFree(time_us));
    const taken = pets.filter(({ name, room }) => outing.takes.includes(name) && room !== OUTSIDE);
    if (able.length === 0 || (outing.takes.length > 0 && taken.length === 0)) return;
    const going = outing.choose === 'one' ? [able.find((one) => !one.busy) ?? (able[0] as Mover)] : able;
    if ([...going, ...taken].some((one) => one.busy)) {
      if (waits < MOST_WAITS) this.house.clock.at(time_us + WAIT_US, (now_us) => this.begin(outing, now_us, waits + 1));
      return;
    }
    // People first: the first leads, pets are at heel.
    const party = [...going.filter((one) => one.carer), ...going.filter((one) => !one.carer), ...taken];
    const leader = party[0] as Mover;
    const gate = this.lastRoom(leader.room);
    if (gate === null) return;
    this.gather(party, gate, time_us, (all, now_us) =>
      this.withInfant(all, gate, now_us, (out_us) => {
        let there = 0;
        this.trips.setOut(all, OUTSIDE, out_us, (member, arrived_us) => {
          member.busy = true;
          if (++there === all.length) this.outside(outing, all, gate, arrived_us);
        });
      }),
    );
  }

  /** The first of them fetches an infant that would be left alone in the house, while the others wait at the door. */
  private withInfant(all: readonly Mover[], gate: number, time_us: number, then: (time_us: number) => void): void {
    const { trips } = this;
    const { residents } = this.house;
    const nursery = mustFetch(all, residents);
    if (nursery === null) return then(time_us);
    const leader = all[0] as Mover;
    const back = (one: Mover, now_us: number): void => {
      if (one !== leader) return trips.think(one, now_us);
      one.busy = true;
      then(now_us);
    };
    trips.setOut([leader], nursery, time_us, (one, now_us) => {
      if (one !== leader) return trips.think(one, now_us);
      const infant = residents.infants.find(({ room, carried }) => room === nursery && !carried) ?? null;
      trips.setOut([leader], gate, now_us, back, null, infant);
    });
  }

  private outside(outing: Outing, party: readonly Mover[], gate: number, time_us: number): void {
    const back_us = time_us + Math.round(outing.lasts_min * MINUTE_US);
    if (back_us >= this.house.clock_us) return;
    this.house.clock.at(back_us, (now_us) => this.home(outing, party, gate, now_us));
  }

  /** Home together; whoever has to be elsewhere stays out, whoever is to be fetched comes along. */
  private home(outing: Outing, party: readonly Mover[], gate: number, time_us: number): void {
    const { trips } = this;
    for (const member of party) member.busy = false;
    const fetched = this.house.residents.people.filter(
      (one) => outing.fetches.includes(one.name) && one.room === OUTSIDE && !one.busy && !party.includes(one),
    );
    for (const one of fetched) one.mind.fetched(time_us);
    const staying = party.filter((one) => one.is === 'resident' && one.mind.isAway(time_us));
    const back = [...party.filter((one) => !staying.includes(one)), ...fetched];
    const people = back.filter((one) => one.is === 'resident');
    const pets = back.filter((one) => one.is === 'pet');
    if (people.length > 0) trips.setOut([...people, ...pets], gate, time_us, trips.think);
    else for (const pet of pets) trips.setOut([pet], gate, time_us, trips.think);
    for (const one of staying) trips.think(one, time_us);
  }

  /** The last room before the open air. */
  private lastRoom(from: number): number | null {
    const { routes, doors } = this.house;
    const last = routes.way(from, OUTSIDE)?.at(-1);
    if (last === undefined) return null;
    const door = doors[last] as CrowdDoor;
    return door.from === OUTSIDE ? door.to : door.from;
  }

  /** All come to a room by their own ways; then, once the last is there. A pet that a shut leaf keeps back stays at home. */
  private gather(
    party: readonly Mover[],
    room: number,
    time_us: number,
    then: (all: readonly Mover[], time_us: number) => void,
  ): void {
    let waiting = party.length;
    const arrived = (member: Mover, now_us: number): void => {
      member.busy = true;
      if (--waiting > 0) return;
      const all = party.filter((one) => one.room === room);
      for (const one of party) if (one.room !== room) this.trips.wait(one, now_us + 1);
      then(all, now_us);
    };
    for (const member of party) {
      member.busy = true;
      member.round++;
    }
    for (const member of party) {
      if (member.room === room) arrived(member, time_us);
      else
        this.trips.setOut([member], room, time_us, (one, now_us) => {
          // A pet that came along at heel, but isn't asked for, is on its own again.
          if (party.includes(one)) arrived(one, now_us);
          else this.trips.think(one, now_us);
        });
    }
  }
}
