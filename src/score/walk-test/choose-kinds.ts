/** Which kinds of passage are worth walking: those that make most of a door's wrong counts, and the commonest. */
import { wrongOf } from '../door-counts.js';
import type { KindRate } from '../metrics-schema.js';

export interface ChosenKinds {
  /** The most important first. */
  readonly chosen: readonly KindRate[];
  /** Kinds with wrong counts that are not walked, and the share of the door's wrong counts that they make. */
  readonly left_out: readonly { readonly row: KindRate; readonly share: number; readonly can: boolean }[];
}

/** Kinds are added until they make so much of the wrong counts. */
export const ENOUGH = 0.95;
/** More would thin out what an evening can tell of each. */
export const MOST_KINDS = 6;

/** @param can whether somebody can be asked to walk it */
export function chooseKinds(rows: readonly KindRate[], can: (row: KindRate) => boolean): ChosenKinds {
  const ranked = rows.filter(({ visits }) => visits > 0).sort(byImportance);
  const walkable = ranked.filter(can);
  const commonest = [...walkable].sort((a, b) => b.visits - a.visits)[0];
  const all = walkable.reduce((sum, row) => sum + wrongOf(row), 0);
  const chosen = new Set<KindRate>();
  let covered = 0;
  for (const row of walkable) {
    const room = chosen.has(commonest!) ? MOST_KINDS : MOST_KINDS - 1;
    if (chosen.size >= room || (covered >= ENOUGH * all && chosen.size > 0)) break;
    chosen.add(row);
    covered += wrongOf(row);
  }
  if (commonest) chosen.add(commonest);
  const total = ranked.reduce((sum, row) => sum + wrongOf(row), 0);
  return {
    chosen: [...chosen],
    left_out: ranked
      .filter((row) => !chosen.has(row) && wrongOf(row) > 0)
      .map((row) => ({ row, share: wrongOf(row) / total, can: can(row) })),
  };
}

/** The one with more wrong counts first; among equals the commoner. */
export function byImportance(a: KindRate, b: KindRate): number {
  return wrongOf(b) - wrongOf(a) || b.visits - a.visits;
}
