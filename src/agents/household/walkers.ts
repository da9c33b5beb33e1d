/** Every walker a household can send through a door, by name: each of its people and guests, and with what they carry. */
import { BUILT_IN_WALKERS, type Walker } from '../schema.js';
import { CARER_AGE } from '../figures/household.js';
import type { Household, HouseholdPerson } from './schema.js';

/** Youngest who walks: younger ones are carried. */
export const WALKING_AGE_Y = 2;

export const isInfant = ({ age_y }: HouseholdPerson): boolean => age_y < WALKING_AGE_Y;
export const isCarer = ({ age_y, load }: HouseholdPerson): boolean => age_y >= CARER_AGE.value && load === undefined;

/** Name of somebody with something: `ida-laundry-basket`. */
export function laden(name: string, load: string | null | undefined): string {
  return load ? `${name}-${load}` : name;
}

/** Name of a guest: of the guests where all are of one sort, with the sort otherwise. */
export function guestName(
  guests: { readonly name: string; readonly who: readonly { readonly who: string }[] },
  who: string,
): string {
  return guests.who.length === 1 ? guests.name : `${guests.name}-${who}`;
}

/**
 * @param own the scenario's walkers: guests and pets name them
 * @returns walkers by the name that visits carry; people first, as the scenario lists them
 */
export function householdWalkers(
  household: Household,
  own: Readonly<Record<string, Walker>>,
): Readonly<Record<string, Walker>> {
  const known = { ...BUILT_IN_WALKERS, ...own };
  const walkers: Record<string, Walker> = {};
  const loads = [...new Set(household.errands.map(({ load }) => load))];
  const infants = household.people.some(isInfant);
  for (const person of household.people.filter((one) => !isInfant(one))) {
    const plain = walkerOf(person);
    walkers[person.name] = plain;
    if (person.load !== undefined) continue;
    for (const load of loads) walkers[laden(person.name, load)] = { ...plain, load } as Walker;
    if (!infants || !isCarer(person)) continue;
    walkers[laden(person.name, 'infant')] = { ...plain, with_infant: true } as Walker;
    walkers[laden(person.name, 'pram')] = { ...plain, load: 'pram' } as Walker;
  }
  for (const guests of [...household.visitors, ...household.parties])
    for (const { who } of guests.who) {
      const walker = known[who];
      if (!walker) continue;
      const name = guestName(guests, who);
      walkers[name] = walker;
      if (guests.load) walkers[laden(name, guests.load)] = { ...walker, load: guests.load } as Walker;
    }
  for (const pet of household.pets) {
    const animal = known[pet.animal];
    if (animal) walkers[pet.name] = animal;
  }
  const robot = known['robot-vacuum'];
  if (robot) for (const { name } of household.robots) walkers[name] = robot;
  return walkers;
}

function walkerOf({ age_y, sex, stature_m, speed_mps, load }: HouseholdPerson): Walker {
  const common = { with_infant: false, ...(load !== undefined && { load }) };
  return (
    stature_m === undefined
      ? { kind: 'people', ages_y: [age_y, age_y], women_share: sex === 'woman' ? 1 : 0, ...common }
      : { kind: 'person', stature_m, sex, age_y, ...(speed_mps !== undefined && { speed_mps }), ...common }
  ) as Walker;
}
