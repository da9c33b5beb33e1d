/** Something the user asked for by its name. */
import { nearest } from '../engine/nearest.js';
import { quote } from '../engine/printable.js';
import { UserProblem } from './problem.js';

/**
 * @param option what the name was given with @param what `door`, `logic`, or nothing @param where `in this run`, or nothing
 * @throws {UserProblem} with what there is instead, or the nearest of it
 */
export function namedOne<T extends { readonly name: string }>(
  option: string,
  what: string,
  where: string,
  all: readonly T[],
  name: string,
): T {
  const found = all.find((one) => one.name === name);
  if (found !== undefined) return found;
  const known = all.map((one) => one.name);
  const close = nearest(name, known);
  throw new UserProblem(
    `${option}: ${['there is no', what, quote(name), where].filter((word) => word !== '').join(' ')}`,
    close === undefined ? `there is ${known.map(quote).join(', ')}` : `did you mean ${quote(close)}?`,
  );
}
