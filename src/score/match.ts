/**
 * Who did each tally mean? Least-cost matching of the tallies of one cluster to the person-crossings in it.
 *
 * A tally may be matched to a person of a crossing visit while it lies in the visit plus the logic's latency, in any
 * order. Right costs 0, reversed 1, a person and a tally left alone 2 (one missed, one extra). Of the matchings that
 * cost least, the one with the least total time between tallies and crossings is taken; of those, the one that gives
 * earlier tallies to lower body numbers. A tally left alone belongs to a visit that covers it: a person who crosses
 * before one who does not, then a pet, then a thing; then the nearest in time; then the lower body.
 */
import type { Visit } from '../agents/visit.js';
import { Assignment } from './assignment.js';
import { crossingsOf, momentOf, precedenceOf } from './truth.js';

/** What a logic made of one visit: how many entries of its row fall in each column, and the net it counted. */
export interface Verdict {
  forward: number;
  backward: number;
  nothing: number;
  extra: number;
  /** Tallies forward minus tallies backward of all tallies that are the visit's, extra ones included. */
  net: number;
}

/** Time is weighed below wrongs: differences beyond 2³⁶ µs (19 hours) count as equal, sums of 4,095 stay below one wrong. */
const WRONG = 281_474_976_710_656; // 2⁴⁸
const LONGEST_US = 68_719_476_735; // 2³⁶ − 1

export class Matcher {
  private readonly assignment = new Assignment();
  /** Visit of each column, as an index from the cluster's first. */
  private readonly columnVisit: number[] = [];
  /** First column of each visit. */
  private readonly firstColumn: number[] = [];

  /**
   * Matches tallies `tallyFrom` up to `tallyTo`, in order of time, with visits `visitFrom` up to `visitTo`, in order of
   * entering. Every tally must be covered by a visit. Writes the owner of the k-th of them, an index into `visits`, to
   * `owners[k]`, and whether it was matched to a person-crossing to `matched[k]`.
   */
  match(
    visits: readonly Visit[],
    visitFrom: number,
    visitTo: number,
    times: readonly number[],
    signs: readonly number[],
    tallyFrom: number,
    tallyTo: number,
    latency_us: number,
    owners: number[],
    matched: boolean[],
  ): void {
    const { assignment, columnVisit, firstColumn } = this;
    let columns = 0;
    for (let i = visitFrom; i < visitTo; i++) {
      firstColumn[i - visitFrom] = columns;
      for (let p = crossingsOf(visits[i]!); p > 0; p--) columnVisit[columns++] = i;
    }
    firstColumn[visitTo - visitFrom] = columns;
    assignment.reset(columns);
    let begin = visitFrom;
    for (let t = tallyFrom; t < tallyTo; t++) {
      const time = times[t]!;
      const sign = signs[t]!;
      while (begin < visitTo && visits[begin]!.leave_us + latency_us < time) begin++;
      for (let i = begin; i < visitTo; i++) {
        const visit = visits[i]!;
        if (visit.enter_us > time) break;
        const { cross_us } = visit;
        if (cross_us === null || time > visit.leave_us + latency_us) continue;
        const reversed = (visit.direction === 'forward') === sign > 0 ? 0 : WRONG;
        const cost = reversed + Math.min(Math.abs(time - cross_us), LONGEST_US);
        const tie = visit.body * (tallyTo - t);
        for (let j = firstColumn[i - visitFrom]!; j < firstColumn[i - visitFrom + 1]!; j++) {
          assignment.allow(j, cost, tie);
        }
      }
      assignment.endRow();
    }
    assignment.solve(2 * WRONG);
    for (let k = 0; k < tallyTo - tallyFrom; k++) {
      const column = assignment.columnOf[k]!;
      matched[k] = column >= 0;
      owners[k] =
        column >= 0 ? columnVisit[column]! : ownerOf(visits, visitFrom, visitTo, times[tallyFrom + k]!, latency_us);
    }
  }
}

/** Index of the visit a tally without a match belongs to, −1 if none covers it; visits are in order of entering. */
export function ownerOf(
  visits: readonly Visit[],
  from: number,
  to: number,
  time_us: number,
  latency_us: number,
): number {
  let best = -1;
  for (let i = from; i < to; i++) {
    const visit = visits[i]!;
    if (visit.enter_us > time_us) break;
    if (time_us > visit.leave_us + latency_us) continue;
    if (best < 0 || comesBefore(visit, visits[best]!, time_us)) best = i;
  }
  return best;
}

function comesBefore(a: Visit, b: Visit, time_us: number): boolean {
  const rank = precedenceOf(a) - precedenceOf(b);
  if (rank !== 0) return rank < 0;
  const nearer = Math.abs(time_us - momentOf(a)) - Math.abs(time_us - momentOf(b));
  return nearer !== 0 ? nearer < 0 : a.body < b.body;
}
