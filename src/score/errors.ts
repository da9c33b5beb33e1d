/** In which ways counts were wrong, in units of wrong as rates count them. */
import type { Visit } from '../agents/visit.js';
import type { Verdict } from './match.js';
import { BACKWARD_ROW, FORWARD_ROW, rowOf } from './truth.js';

export const ERRORS = ['missed', 'reversed', 'extra', 'invented'] as const;
export type ErrorCounts = Readonly<Record<(typeof ERRORS)[number], number>>;

export function errorSum(all: readonly ErrorCounts[]): { [Name in (typeof ERRORS)[number]]: number } {
  const total = { missed: 0, reversed: 0, extra: 0, invented: 0 };
  for (const one of all) for (const name of ERRORS) total[name] += one[name];
  return total;
}

/** What a verdict has wrong with a visit, written into `into`. */
export function errorsOf(
  visit: Visit,
  verdict: Readonly<Verdict>,
  into: { -readonly [Name in keyof ErrorCounts]: number },
): void {
  const row = rowOf(visit);
  const person = row === FORWARD_ROW || row === BACKWARD_ROW;
  into.missed = person ? verdict.nothing : 0;
  into.reversed = person ? (row === FORWARD_ROW ? verdict.backward : verdict.forward) : 0;
  into.extra = person ? verdict.extra : 0;
  into.invented = person ? 0 : verdict.forward + verdict.backward + verdict.extra;
}
