/**
 * Error rates that likelihood ledgers weigh by, learnt before the run: replicates of their own streams, never judged.
 *
 * It is what a careful owner could measure by standing at each door for a while. Rates are (k + ½)/(n + 1), the mean of
 * Jeffreys' posterior of a share (Jeffreys, Theory of Probability, 1961; from memory): none is ever thought impossible.
 */
import type { Calibration } from '../counter/ledger/schema.js';
import type { Design } from '../scenario/schema.js';
import type { DoorCounts } from '../score/door-counts.js';
import { addCase, sumCases } from '../score/door-counts.js';
import { ratesOf } from './calibration-rates.js';
import { runReplicate } from './replicate.js';

/** Replicates that are run to learn from. */
export const CALIBRATIONS = 2;

/** The design with the rates its ledgers need: itself where none needs any, or all are there. */
export function calibrated(design: Design): Design {
  if (!design.ledgers.some(({ use }) => use === 'likelihood')) return design;
  const pairs = design.doors.flatMap((door) => design.logics.map((logic) => [door.name, logic.name] as const));
  if (pairs.every(([door, logic]) => ratesOf(design, door, logic) !== null)) return design;
  const plain: Design = { ...design, ledgers: [{ use: 'raw', name: 'raw' }] };
  const records = Array.from(
    { length: CALIBRATIONS },
    (_, n) => runReplicate(plain, n + 1, {}, undefined, 'calibration').record,
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

/** Rates of each door under one logic. A door that nobody went through is taken to be like the others. */
export function ratesOfDoors(
  doors: readonly (readonly Pick<DoorCounts, 'total' | 'tallies'>[])[],
): Omit<Calibration, 'door' | 'logic'>[] {
  const totals = doors.map((records) => sumCases(records.map(({ total }) => total)));
  const house = sumCases([]);
  for (const total of totals) addCase(house, total);
  const tallies = doors.flat().reduce((sum, record) => sum + record.tallies, 0);
  return totals.map((own) => {
    const { crossings, missed, reversed, extra, invented } = own.crossings > 0 ? own : house;
    const share = (k: number): number => (k + 0.5) / (crossings + 1);
    return {
      missed: share(missed),
      reversed: share(reversed),
      invented: share(extra + invented),
      crossings_per_tally: (own.crossings + 0.5) / (tallies + 1),
    };
  });
}
