/** The most telling of what went wrong: one typical case of each combination, the most frequent first. */
import type { Explained, WhyRecord } from '../../score/why.js';
import { keyOf } from '../../score/why.js';
import type { WrongKept, WrongVisit } from '../../score/wrong-visits.js';
import type { Pictured } from './recorder.js';

export interface Telling extends Pictured {
  /** Number of the replicate, from 1. */
  readonly replicate: number;
  /** How many of those looked at are like it. */
  readonly like: number;
}

/**
 * Of the headline's logic. Alike are visits that went wrong in the same way, of the same walkers doing the same, for the same cause.
 *
 * @param why the replicates that were explained, from the first on; without any, the first two are looked at
 */
export function mostTelling(wrongs: readonly WrongKept[], why: readonly WhyRecord[], limit: number): Telling[] {
  const groups = new Map<string, Telling[]>();
  for (const [r, wrong] of wrongs.slice(0, Math.max(2, why.length)).entries()) {
    const causes = new Map((why[r]?.explained ?? []).map((one) => [`${one.logic} ${one.number}`, one]));
    for (const visit of wrong.visits) {
      if (visit.logic !== 0) continue;
      const cause = causes.get(`${visit.logic} ${visit.number}`);
      const key = `${errorOf(visit)} ${visit.who} ${visit.kind} ${cause ? keyOf(cause.why) : ''}`;
      const group = groups.get(key) ?? [];
      group.push(telling(visit, r + 1, cause));
      groups.set(key, group);
    }
  }
  const ranked = [...groups.values()].sort((a, b) => b.length - a.length);
  const chosen: Telling[] = [];
  // One of each, then a second of each, and so on: the earliest, so that little has to be run again.
  for (let round = 0; chosen.length < limit && ranked.some((group) => group.length > round); round++)
    for (const group of ranked) {
      const one = group[round];
      if (one && chosen.length < limit) chosen.push({ ...one, like: group.length });
    }
  return chosen;
}

function telling(visit: WrongVisit, replicate: number, cause: Explained | undefined): Telling {
  return { ...visit, replicate, like: 1, ...(cause && { why: cause.why }) };
}

function errorOf({ missed, reversed, extra, invented }: WrongVisit): string {
  return [missed, reversed, extra, invented].map((units) => (units > 0 ? 1 : 0)).join('');
}
