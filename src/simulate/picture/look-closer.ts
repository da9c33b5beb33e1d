/** A finished run looked at again: one visit of it, or the most telling ones that went wrong. */
import type { OutsideLogics } from '../../counter/make-logic.js';
import type { Visit } from '../../agents/visit.js';
import type { Design } from '../../scenario/schema.js';
import type { Picture } from '../../score/pictures.js';
import type { WrongKept } from '../../score/wrong-visits.js';
import { NoSuchPassage } from '../traced.js';
import { runReplicate } from '../replicate.js';
import { explainReplicate } from '../why/explain-replicate.js';
import { whyRecords } from '../why/why.js';
import { type Telling, mostTelling } from './choose.js';
import { picturesOf } from './pictures.js';

export interface VisitChoice {
  /** Number of the replicate, from 1. */
  readonly replicate: number;
  /** Number of the visit, as in passages.csv. */
  readonly number: number;
  /** Index of the logic. */
  readonly logic: number;
  /** Index of the door it must be at; any if left out. */
  readonly door?: number | undefined;
}

/**
 * The picture of one visit, right or wrong; with its cause if it went wrong.
 *
 * @param design with all that was learnt before its run
 * @throws {NoSuchPassage} when the replicate has no such visit at that door
 */
export function pictureOfVisit(design: Design, choice: VisitChoice, outside?: OutsideLogics): Picture {
  const { replicate, number, logic, door } = choice;
  let found: Visit | null = null;
  let last = 0;
  const { wrong } = runReplicate(
    design,
    replicate,
    {
      passage(_, visit) {
        last = visit.number;
        if (visit.number === number) found = visit;
      },
    },
    { outside },
  );
  const visit = found as Visit | null;
  if (!visit)
    throw new NoSuchPassage(
      `replicate ${replicate} has no visit number ${number}`,
      last === 0 ? 'nobody came in it' : `its visits go from 1 to ${last}; passages.csv has them all`,
    );
  if (door !== undefined && visit.door !== door)
    throw new NoSuchPassage(
      `visit ${number} of replicate ${replicate} was at another door`,
      `it was at ${JSON.stringify(design.doors[visit.door]!.name)}; numbers count the visits of all doors`,
    );
  const kept = wrong.visits.filter((one) => one.number === number && one.logic === logic);
  const why = explainReplicate(design, replicate, { ...wrong, visits: kept, strays: [] }, 1, outside).explained[0]?.why;
  const right = { missed: 0, reversed: 0, extra: 0, invented: 0 };
  const of = kept[0] ?? {
    ...right,
    door: visit.door,
    logic,
    number,
    enter_us: visit.enter_us,
    leave_us: visit.leave_us,
  };
  return picturesOf(design, replicate, [{ ...of, ...(why && { why }) }], outside)[0]!;
}

/** Pictures of the headline's most telling wrong visits, in their order, as a report shows them. */
export function picturesOfWrong(design: Design, limit: number, outside?: OutsideLogics): Picture[] {
  const wrongs: WrongKept[] = [];
  const wrongOf = (replicate: number): WrongKept =>
    (wrongs[replicate - 1] ??= runReplicate(design, replicate, {}, { outside }).wrong);
  const why = whyRecords(design, wrongOf, outside);
  return drawTelling(design, mostTelling(wrongs, why, limit), outside);
}

/** One run of each replicate for all its pictures. */
export function drawTelling(design: Design, telling: readonly Telling[], outside?: OutsideLogics): Picture[] {
  const drawn = new Map<Telling, Picture>();
  for (const replicate of new Set(telling.map((one) => one.replicate))) {
    const own = telling.filter((one) => one.replicate === replicate);
    picturesOf(design, replicate, own, outside).forEach((picture, i) => drawn.set(own[i]!, picture));
  }
  return telling.map((one) => drawn.get(one)!);
}
