/** What truly happened, as the score counts it: which row of the confusion a visit belongs to. */
import type { Visit } from '../agents/visit.js';
import { ROWS, type Row } from './metrics-schema.js';

const ROW_INDEX = Object.fromEntries(ROWS.map((row, index) => [row, index])) as Readonly<Record<Row, number>>;

export const FORWARD_ROW = ROW_INDEX.forward;
export const BACKWARD_ROW = ROW_INDEX.backward;
export const NOBODY_ROW = ROW_INDEX.nobody;
const TURNED_BACK_ROW = ROW_INDEX['turned back'];
const LINGERED_ROW = ROW_INDEX.lingered;
const REACHED_ROW = ROW_INDEX.reached;
const PET_ROW = ROW_INDEX.pet;
const THING_ROW = ROW_INDEX.thing;

/**
 * Row of a visit, as an index into {@link ROWS}.
 *
 * A visit crosses if it leaves at the other end; then its row is the direction, and each person aboard is one entry.
 * A visit that does not cross is one entry: `lingered` if it stayed on purpose, `reached` if only an arm went through,
 * otherwise `turned back`, whatever it set out to do. Nobody aboard makes it a `pet` or a `thing`.
 */
export function rowOf(visit: Visit): number {
  if (visit.persons === 0) return visit.sort === 'pet' ? PET_ROW : THING_ROW;
  if (visit.cross_us !== null) return visit.direction === 'forward' ? FORWARD_ROW : BACKWARD_ROW;
  if (visit.kind === 'reach') return REACHED_ROW;
  return visit.kind === 'linger' ? LINGERED_ROW : TURNED_BACK_ROW;
}

/** How many person-crossings a visit holds: the persons aboard if it crosses, otherwise none. */
export function crossingsOf(visit: Visit): number {
  return visit.cross_us === null ? 0 : visit.persons;
}

/** What a visit adds to the true net flow, persons forward minus persons backward. */
export function trueNetOf(visit: Visit): number {
  const crossings = crossingsOf(visit);
  return visit.direction === 'forward' ? crossings : -crossings;
}

/** Who a tally covered by several visits belongs to: the lowest first. A person who crosses, one who does not, a pet, a thing. */
export function precedenceOf(visit: Visit): number {
  if (visit.persons === 0) return visit.sort === 'pet' ? 2 : 3;
  return visit.cross_us === null ? 1 : 0;
}

/** The moment a tally's distance is measured from, µs: the crossing, or the middle of a stay without one. */
export function momentOf(visit: Visit): number {
  return visit.cross_us ?? Math.floor((visit.enter_us + visit.leave_us) / 2);
}
