/** Who carries an infant: it is never left alone awake, nor alone in the house. */
import { OUTSIDE } from '../outside.js';
import type { Infant, Mover } from './mover.js';
import type { Residents } from './residents.js';

/** The infant that the first of those who set out must take along; null for none. */
export function infantToCarry(members: readonly Mover[], goal: number, { people, infants }: Residents): Infant | null {
  const leader = members[0] as Mover;
  if (!leader.carer) return null;
  const staying = people.filter((one) => one.carer && !one.leaving && !members.includes(one));
  return (
    infants.find((infant) => {
      if (infant.carried || infant.room !== leader.room) return false;
      if (infant.room === OUTSIDE) return infant.keeper !== null && members.includes(infant.keeper);
      if (goal === OUTSIDE && !staying.some((one) => one.room !== OUTSIDE)) return true;
      return !infant.asleep && !staying.some((one) => one.room === infant.room && !one.busy);
    }) ?? null
  );
}

/**
 * The room of an infant that the first of some must fetch before they leave the house, for nobody else is there; null for
 * none. Whoever is on the way out already doesn't look after it.
 */
export function mustFetch(leaving: readonly Mover[], { people, infants }: Residents): number | null {
  const leader = leaving[0] as Mover;
  if (!leader.carer || leader.room === OUTSIDE) return null;
  if (people.some((one) => !leaving.includes(one) && one.carer && !one.leaving && one.room !== OUTSIDE)) return null;
  // One is as many as somebody can carry.
  if (infants.some((infant) => infant.room === leader.room && !infant.carried)) return null;
  const left = infants.find((infant) => infant.room !== OUTSIDE && !infant.carried);
  return left === undefined ? null : left.room;
}
