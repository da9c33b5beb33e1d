/** Those who live in the house: people, infants, pets and robots, each with a mind and a place to begin. */
import type { Stream } from '../../engine/stream.js';
import { OUTSIDE } from '../outside.js';
import type { Calendar } from './calendar.js';
import { habitsNamed } from './habits.js';
import { Itinerary } from './itinerary.js';
import { IDLE_MIND, PetMind } from './minds.js';
import type { Infant, Mind, Mover } from './mover.js';
import type { HouseholdPlan } from './plan.js';
import type { Places } from './places.js';
import type { HouseholdPerson, HouseholdPet } from './schema.js';
import { isCarer, isInfant } from './walkers.js';

export interface Residents {
  readonly people: readonly Mover[];
  readonly pets: readonly Mover[];
  readonly robots: readonly Mover[];
  readonly infants: readonly Infant[];
  /** Until when people stay where they begin; whoever is missing sets out at once. */
  readonly begin_us: ReadonlyMap<Mover, number>;
}

/** Makes everybody anew; a pure function of plan and stream. */
export function residentsOf(plan: HouseholdPlan, places: Places, calendar: Calendar, stream: Stream): Residents {
  const { household, habits } = plan;
  let made = 0;
  const mover = (name: string, is: Mover['is'], carer: boolean, mind: Mind, room: number): Mover => ({
    number: made++,
    name,
    is,
    carer,
    mind,
    luggage: null,
    group: [],
    room,
    busy: false,
    leaving: false,
    asleep: false,
    round: 0,
    visits: 0,
  });
  const itinerary = (person: HouseholdPerson): { mind: Itinerary; bedroom: number } => {
    const bedroom = bedroomOf(person, household.people, places) ?? 0;
    const own = stream.child('person', person.name);
    return {
      mind: new Itinerary(habitsNamed(person.habits, habits), places, bedroom, calendar, household.activity, own),
      bedroom,
    };
  };
  const infants = household.people.filter(isInfant).map((person): Infant => {
    const { mind, bedroom } = itinerary(person);
    const room = person.starts_in === undefined ? bedroom : (places.all(person.starts_in)[0] ?? bedroom);
    return { name: person.name, mind, bedroom, room, asleep: !mind.isFree(0), carried: false, keeper: null };
  });
  const begin_us = new Map<Mover, number>();
  const people = household.people
    .filter((person) => !isInfant(person))
    .map((person) => {
      const { mind, bedroom } = itinerary(person);
      const stated = person.starts_in === undefined ? undefined : places.all(person.starts_in)[0];
      const first = mind.next(0, bedroom);
      const one = mover(person.name, 'resident', isCarer(person), mind, stated ?? first.room);
      if (one.room === first.room || mind.isFree(0)) begin_us.set(one, first.until_us);
      one.asleep = first.asleep && one.room === first.room;
      return one;
    });
  // Nobody leaves an infant alone in the house: it is with whoever is out, if all who could mind it are.
  const carers = people.filter(({ carer }) => carer);
  if (carers.length > 0 && carers.every(({ room }) => room === OUTSIDE))
    household.people.filter(isInfant).forEach((person, i) => {
      if (person.starts_in === undefined)
        Object.assign(infants[i] as Infant, { room: OUTSIDE, keeper: carers[i % carers.length] });
    });
  const pets = household.pets.map((pet) => {
    const home = places.all(pet.sleeps_in)[0] ?? 0;
    return mover(pet.name, 'pet', false, petMind(pet, home, plan, places, calendar, stream), home);
  });
  const robots = household.robots.map(({ name, docks_in }) =>
    mover(name, 'robot', false, IDLE_MIND, places.all(docks_in)[0] ?? 0),
  );
  return { people, pets, robots, infants, begin_us };
}

function petMind(
  pet: HouseholdPet,
  home: number,
  { household, rooms }: HouseholdPlan,
  places: Places,
  calendar: Calendar,
  stream: Stream,
): PetMind {
  const allowed = pet.rooms ? pet.rooms.flatMap((word) => places.all(word)) : rooms.map((_, room) => room);
  const goals = [...new Set([...allowed, home, ...(pet.by_itself_outside ? [OUTSIDE] : [])])];
  const often = pet.moves_per_hour * household.activity;
  return new PetMind(goals, home, pet.awake, often, calendar, stream.child('pet', pet.name));
}

/**
 * Where somebody sleeps: the room they name; otherwise bedrooms that nobody names, children one after the other; a
 * bedroom is better than none.
 */
export function bedroomOf(person: HouseholdPerson, people: readonly HouseholdPerson[], places: Places): number | null {
  const named = person.bedroom === undefined ? undefined : places.all(person.bedroom)[0];
  if (named !== undefined) return named;
  const bedrooms = places.all('bedroom');
  if (bedrooms.length === 0) return places.all('living')[0] ?? null;
  const taken = new Set(
    people.flatMap(({ bedroom }) => (bedroom === undefined ? [] : places.all(bedroom).slice(0, 1))),
  );
  const open = bedrooms.filter((room) => !taken.has(room));
  const rooms = open.length > 0 ? open : bedrooms;
  const nth = people.filter(({ bedroom }) => bedroom === undefined).indexOf(person);
  return rooms[Math.max(0, nth) % rooms.length] as number;
}
