/** What follows from a household for the rest of a design. */
import { householdWalkers, isInfant } from '../agents/household/walkers.js';
import { trafficSchema } from '../agents/schema.js';
import type { Design } from './schema.js';

/**
 * A design whose walkers hold everybody of its household, each by name, and whose doors have as their mix its people by
 * equal shares, each going through: what a doorway can tell of them doesn't depend on how often they come. Who comes when
 * is the household's. A design without a household is left as it is.
 */
export function withHousehold(design: Design): Design {
  const { household } = design;
  if (!household) return design;
  const names = household.people.filter((person) => !isInfant(person)).map(({ name }) => name);
  const traffic = trafficSchema.parse({
    arrivals_per_hour: 0,
    home_pace: household.home_pace,
    ...(names.length > 0 && { mix: names.map((who) => ({ who, kind: 'through', share: 1 / names.length })) }),
  });
  return {
    ...design,
    walkers: { ...design.walkers, ...householdWalkers(household, design.walkers) },
    doors: design.doors.map((door) => ({ ...door, traffic })),
  };
}
