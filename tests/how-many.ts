/** How much of a test that could go on for ever is done: `npm test`, `npm run test:long`, and before every mutant. */
import process from 'node:process';

export const LONG = process.env['JAMBEAM_LONG'] !== undefined;
const MUTANTS = process.env['JAMBEAM_MUTATE'] !== undefined;

/** A number for each; where mutants need no other they get the usual one. */
export function howMany(usual: number, long: number, mutants = usual): number {
  if (LONG) return long;
  return MUTANTS ? mutants : usual;
}
