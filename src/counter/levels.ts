/**
 * Levels of all beams of a door as one small integer: bit i is beam i, set while it is broken.
 * With two beams: 0 both clear, 1 A broken alone, 2 B broken alone, 3 both broken.
 */
import type { Level } from './logic.js';

/** Most beams a door may have. */
export const MAX_BEAMS = 8;

/** The masks of a door with two beams, by what they mean. */
export const CLEAR = 0;
export const ONLY_A = 1;
export const ONLY_B = 2;
export const BOTH = 3;

const shared: (readonly (readonly Level[])[])[] = [];

/**
 * The levels of `mask` as an array in the door's order of beams: shared and frozen, never allocated twice.
 *
 * @param mask integer from 0 to 2^beams − 1
 * @param beams from 1 to 8
 * @throws {RangeError} when either is out of range
 * @example levelsOf(1, 2) // => [1, 0]: A broken, B clear
 */
export function levelsOf(mask: number, beams: number): readonly Level[] {
  const levels = (shared[beams] ??= allLevels(beams))[mask];
  if (levels === undefined) throw new RangeError(`levelsOf: mask ${mask} is not one of ${beams} beams`);
  return levels;
}

function allLevels(beams: number): readonly (readonly Level[])[] {
  if (!Number.isInteger(beams) || beams < 1 || beams > MAX_BEAMS)
    throw new RangeError(`levelsOf: beams must be 1 to ${MAX_BEAMS}, got ${beams}`);
  return Array.from({ length: 1 << beams }, (_, mask) =>
    Object.freeze(Array.from({ length: beams }, (_beam, i) => ((mask >> i) & 1) as Level)),
  );
}

/** The mask of `levels`; the inverse of {@link levelsOf}. */
export function maskOf(levels: readonly Level[]): number {
  let mask = 0;
  for (let i = 0; i < levels.length; i++) if (levels[i] === 1) mask |= 1 << i;
  return mask;
}

/** A mask as a user writes it, first beam first: mask 1 of two beams is `10`. */
export function bitsOf(mask: number, beams: number): string {
  return levelsOf(mask, beams).join('');
}
