/**
 * Error rates that likelihood ledgers weigh by, learnt before the run: replicates of their own streams, never judged.
 *
 * It is what a careful owner could measure by standing at each door for a while. Rates are (k + ½)/(n + 1), the mean of
 * Jeffreys' posterior of a share (Jeffreys, Theory of Probability, 1961; from memory): none is ever thought impossible.
 */
import type { Calibration } from '../counter/ledger/schema.js';
import type { OutsideLogics } from '../counter/make-logic.js';
import type { Design } from '../scenario/schema.js';
import type { DoorCounts } from '../score/door-counts.js';
import { type NetErrors, noNetErrors } from '../score/net-errors.js';
import { ratesOf } from './calibration-rates.js';
import { taught } from './doorway-learning.js';
import { runReplicate } from './replicate.js';

/** Replicates that are run to learn from. */
export const CALIBRATIONS = 2;

/**
 * The design with all that is learnt before a run: what hidden Markov logics know of their doorways, then the rates that likelihood ledgers need; the design itself where nothing has to be learnt, or all is there.
 *
 * @param outside gives the logics that are code of the user's own
 */
export function calibrated(given: Design, outside?: OutsideLogics): Design {
  const design = taught(given, outside);
  if (!design.ledgers.some(({ use }) => use === 'likelihood')) return design;
  const pairs = design.doors.flatMap((door) => design.logics.map((logic) => [door.name, logic.name] as const));
  if (pairs.every(([door, logic]) => ratesOf(design, door, logic) !== null)) return design;
  const plain: Design = { ...design, ledgers: [{ use: 'raw', name: 'raw' }] };
  const records = Array.from(
    { length: CALIBRATIONS },
    (_, n) => runReplicate(plain, n + 1, {}, { purpose: 'calibration', outside }).record,
  );
  const calibration = design.logics.flatMap((logic, l) =>
    ratesOfDoors(design.doors.map((_, d) => records.map(({ doors }) => doors[d]!.logics[l]!))).map((rates, d) => ({
      door: design.doors[d]!.name,
      logic: logic.name,
      ...rates,
    })),
  );
  return { ...design, calibration };
}

/**
 * Rates of each door under one logic, of net errors: what turns round behind the beams and is counted in and out again
 * leaves rooms as they were. A door that nobody went through is taken to be like the others.
 */
export function ratesOfDoors(doors: readonly (readonly Learnt[])[]): Omit<Calibration, 'door' | 'logic'>[] {
  const own = doors.map((records) => added(records));
  const house = added(doors.flat());
  return own.map(({ crossings: there, net: seen }) => {
    const { crossings, net } = there > 0 ? { crossings: there, net: seen } : house;
    const share = (k: number): number => (k + 0.5) / (crossings + 1);
    return {
      missed: share(net.missed),
      reversed: share(net.reversed),
      invented: share(net.invented),
      crossings_per_tally: (there + 0.5) / (house.tallies + 1),
    };
  });
}

/** What is learnt from a door's counts in one replicate. */
type Learnt = Pick<DoorCounts, 'tallies' | 'net'> & { readonly total: Pick<DoorCounts['total'], 'crossings'> };

function added(records: readonly Learnt[]): { crossings: number; tallies: number; net: NetErrors } {
  const all = { crossings: 0, tallies: 0, net: noNetErrors() };
  for (const { total, tallies, net } of records) {
    all.crossings += total.crossings;
    all.tallies += tallies;
    all.net.missed += net.missed;
    all.net.reversed += net.reversed;
    all.net.invented += net.invented;
  }
  return all;
}
