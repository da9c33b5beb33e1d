/** Who lives in a house and who comes to it, and how much walking that came to in the run. */
import type { Household } from '../agents/household/schema.js';
import { isInfant } from '../agents/household/walkers.js';
import type { Design } from '../scenario/schema.js';
import type { DoorMetrics, Metrics } from '../score/metrics-schema.js';
import { capital, count, decimal, headlineLogic, joined, named, plural } from './words.js';

/** 'Here live ida (41 years) and baby (1 year, carried).', and who else comes, in sentences. */
export function livesHere({ people, pets, visitors, parties, robots }: Household): string[] {
  const person = (p: Household['people'][number]): string =>
    `${named(p.name)} (${plural(p.age_y, 'year')}${isInfant(p) ? ', carried' : ''})`;
  const pet = ({ name, animal }: Household['pets'][number]): string => `${named(name)} (${named(animal)})`;
  const guests = [
    ...visitors.map(({ name, per_day }) => `${named(name)}, ${timesADay(per_day)}`),
    ...parties.map(
      ({ name, guests: n, day, from }) => `${named(name)}, ${plural(n, 'guest')} on ${capital(day)} from ${from}`,
    ),
  ];
  return [
    people.length === 0
      ? 'Nobody lives here.'
      : `Here ${people.length === 1 ? 'lives' : 'live'} ${joined(people.map(person))}.`,
    ...(pets.length === 0 ? [] : [`With them ${pets.length === 1 ? 'lives' : 'live'} ${joined(pets.map(pet))}.`]),
    ...(guests.length === 0 ? [] : [`Guests: ${guests.join('; ')}.`]),
    ...(robots.length === 0 ? [] : [`Robot vacuums: ${joined(robots.map(({ name }) => named(name)))}.`]),
  ];
}

const timesADay = (n: number): string => (n === 1 ? 'once a day' : `${decimal(n, 2)} times a day`);

/** Crossings a day in the run: of each person of the household on average, and of everybody else together. */
export interface CrossingsPerDay {
  readonly each: number | null;
  readonly others: number;
}

export function crossingsPerDay(design: Design, household: Household, metrics: Metrics): CrossingsPerDay {
  const days = (metrics.replicates * metrics.hours) / 24;
  const rates = headlineDoors(design, metrics).flatMap(({ by_kind }) => by_kind);
  const names = household.people.map(({ name }) => name);
  // A person with a load has a name of its own that begins with theirs; guests and pets have names of their own.
  const elsewhere = [...household.visitors, ...household.parties, ...household.pets, ...household.robots].map(
    ({ name }) => name,
  );
  const starts = (who: string, name: string): boolean => who === name || who.startsWith(`${name}-`);
  const longest = (who: string, of: readonly string[]): number =>
    Math.max(-1, ...of.filter((name) => starts(who, name)).map((name) => name.length));
  const lives = (who: string): boolean => longest(who, names) > longest(who, elsewhere);
  const crossings = (residents: boolean): number =>
    rates.filter(({ who }) => lives(who) === residents).reduce((sum, rate) => sum + rate.person_crossings, 0);
  return {
    each: names.length === 0 ? null : crossings(true) / names.length / days,
    others: crossings(false) / days,
  };
}

/** What came out of it, in a sentence. */
export function walkingWords(design: Design, household: Household, metrics: Metrics): string {
  const { each, others } = crossingsPerDay(design, household, metrics);
  const parts = [
    ...(each === null ? [] : [`${amount(each)} crossings of a door per person and day`]),
    ...(others > 0 ? [`${each === null ? '' : 'besides '}${amount(others)} a day by guests`] : []),
  ];
  if (parts.length === 0) return 'Nobody went through any door in this run.';
  return `That came to ${parts.join(', ')}: an assumption, not a survey.`;
}

/** No more digits than a simulated habit is worth. */
const amount = (x: number): string => (x >= 10 ? count(x) : decimal(x, 1));

const headlineDoors = (design: Design, metrics: Metrics): DoorMetrics[] =>
  metrics.doors.filter(({ logic }) => logic === headlineLogic(design));
