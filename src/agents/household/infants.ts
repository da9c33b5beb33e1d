/** Who carries an infant: it is never left alone awake, nor alone in the house. */
import { OUTSIDE } from '../crowd-plan.js';
import type { Infant, Mover } from './mover.js';
import type { Residents } from './residents.js';

/** The infant that the first of those who set out must take along; null for none. */
export function infantToCarry(members: readonly Mover[], goal: number, { people, infants }: Residents): Infant | null {
  const leader = members[0] as Mover;
  if (!leader.carer) return null;
  const staying = people.filter((one) => one.carer && !members.includes(one));
  return (
    infants.find((infant) => {
      if (infant.room !== leader.room) return false;
      if (infant.room === OUTSIDE) return infant.keeper !== null && members.includes(infant.keeper);
      if (goal === OUTSIDE && !staying.some((one) => one.room !== OUTSIDE)) return true;
      return !infant.asleep && !staying.some((one) => one.room === infant.room && !one.busy);
    }) ?? null
  );
}

/** The room of an infant that somebody must fetch before they leave the house, for nobody else is there; null for none. */
export function mustFetch(leaving: Mover, { people, infants }: Residents): number | null {
  if (!leaving.carer || leaving.room === OUTSIDE) return null;
  if (people.some((one) => one !== leaving && one.carer && one.room !== OUTSIDE)) return null;
  const left = infants.find((infant) => infant.room !== OUTSIDE && infant.room !== leaving.room);
  return left === undefined ? null : left.room;
}
