/** Houses for tests: a plan of rooms and doors, a household, and who passes. */
import type { CrowdPlan } from '../../../src/agents/crowd-plan.js';
import { OUTSIDE } from '../../../src/agents/outside.js';
import { HouseCrowd } from '../../../src/agents/household/house-crowd.js';
import { useOf } from '../../../src/agents/household/places.js';
import { type Habits, type Household, householdSchema } from '../../../src/agents/household/schema.js';
import { householdWalkers } from '../../../src/agents/household/walkers.js';
import { ROOM_USES, trafficSchema } from '../../../src/agents/schema.js';
import type { Visit } from '../../../src/agents/visit.js';
import { Stream } from '../../../src/engine/stream.js';
import { leafSchema } from '../../../src/geometry/schema.js';

const HOUR_US = 3.6e9;

export interface HouseText {
  readonly rooms: readonly string[];
  /** Sides of each door by the rooms' names, or outside; a third entry is its width. */
  readonly doors: readonly (readonly [from: string, to: string, width_m?: number])[];
  readonly household: Parameters<typeof householdSchema.parse>[0];
  readonly habits?: Readonly<Record<string, Habits>>;
  readonly hours: number;
  readonly starts_at_h?: number;
  readonly starts_on?: 'monday' | 'saturday';
  /** Hangs in every door. */
  readonly leaf?: Parameters<typeof leafSchema.parse>[0];
}

/** A hall with a kitchen, a living room, a bathroom and two bedrooms. */
export const ROOMS = ['hall', 'kitchen', 'living', 'bathroom', 'bedroom', 'nursery'];
export const DOORS: HouseText['doors'] = [
  ['outside', 'hall', 1],
  ['hall', 'kitchen'],
  ['hall', 'living'],
  ['hall', 'bathroom'],
  ['hall', 'bedroom'],
  ['hall', 'nursery'],
];

export function housePlan(house: HouseText): CrowdPlan {
  const household: Household = householdSchema.parse(house.household);
  const index = (name: string): number => (name === 'outside' ? OUTSIDE : house.rooms.indexOf(name));
  return {
    people_at_start: house.rooms.map(() => 0),
    doors: house.doors.map(([from, to, width_m = 0.85], i) => ({
      name: `door ${i}`,
      from: index(from),
      to: index(to),
      opening: { width_m, zone_m: 1, height_m: 2, jamb_depth_m: 0.12 },
      traffic: trafficSchema.parse({ arrivals_per_hour: 0 }),
      ...(house.leaf !== undefined && {
        hangs: { place: { width_m, height_m: 2, jamb_depth_m: 0.12 }, leaf: leafSchema.parse(house.leaf) },
      }),
    })),
    walkers: householdWalkers(household, {}),
    clock_us: house.hours * HOUR_US,
    starts_at_h: house.starts_at_h ?? 0,
    household: {
      household,
      habits: house.habits ?? {},
      rooms: house.rooms.map((name) => ({ name, use: useOf({ name }, ROOM_USES) })),
      starts_on: house.starts_on ?? 'monday',
    },
  };
}

export interface Lived {
  readonly plan: CrowdPlan;
  readonly start: readonly number[];
  readonly visits: readonly Visit[];
}

export function live(house: HouseText, seed: string): Lived {
  const plan = housePlan(house);
  const crowd = new HouseCrowd(plan, plan.household!, Stream.root(seed));
  const start = crowd.peopleAtStart;
  const visits: Visit[] = [];
  crowd.run((visit) => visits.push(visit));
  return { plan, start, visits };
}

/** Crossings in order of time, with the rooms on both sides. */
export function crossingsOf({ plan, visits }: Lived): { visit: Visit; at_us: number; from: number; to: number }[] {
  return visits
    .filter((visit) => visit.cross_us !== null)
    .map((visit) => {
      const door = plan.doors[visit.door]!;
      const [from, to] = visit.direction === 'forward' ? [door.from, door.to] : [door.to, door.from];
      return { visit, at_us: visit.cross_us as number, from, to };
    })
    .sort((a, b) => a.at_us - b.at_us);
}

/** Persons in a room at a moment. */
export function personsIn(lived: Lived, room: number, at_us: number): number {
  let n = lived.start[room] as number;
  for (const { visit, at_us: time, from, to } of crossingsOf(lived)) {
    if (time > at_us) break;
    if (from === room) n -= visit.persons;
    if (to === room) n += visit.persons;
  }
  return n;
}
