/** Which replicates are looked at closely, and how much of them. */
import type { OutsideLogics } from '../../counter/make-logic.js';
import type { Design } from '../../scenario/schema.js';
import type { WhyRecord } from '../../score/why.js';
import type { WrongKept } from '../../score/wrong-visits.js';
import { hasRangers } from '../plan.js';
import { explainReplicate } from './explain-replicate.js';

/**
 * Replicates are looked at in their order, whole, until so many (`enough`) of the headline's wrong counts are explained. Of one
 * logic at one door in one replicate no more than `most`, evenly spread. Rangers take a hundred readings where a barrier has
 * four edges; a program has to be started anew and told all its past for every question.
 */
const BUDGETS = {
  barriers: { enough: 400, most: 150 },
  rangers: { enough: 150, most: 40 },
  programs: { enough: 40, most: 15 },
} as const;
const FEWEST_REPLICATES = 2;

/**
 * The replicates that were looked at, from the first on.
 *
 * @param wrongOf what went wrong in a replicate, by its number from 1; asked for one after another, as far as is looked
 */
export function whyRecords(
  design: Design,
  wrongOf: (replicate: number) => WrongKept,
  outside?: OutsideLogics,
): WhyRecord[] {
  const programs = design.logics.some(({ use }) => use === 'process');
  const { enough, most } = BUDGETS[programs ? 'programs' : hasRangers(design) ? 'rangers' : 'barriers'];
  const records: WhyRecord[] = [];
  let explained = 0;
  for (let replicate = 1; replicate <= design.replicates; replicate++) {
    if (explained >= enough && records.length >= FEWEST_REPLICATES) break;
    const record = explainReplicate(design, replicate, wrongOf(replicate), most, outside);
    records.push(record);
    explained += record.explained.filter(({ logic }) => logic === 0).length;
  }
  return records;
}
