/**
 * What the headline would be if an assumed share of the mix were half or double.
 *
 * The shares are guesses, the rates per entry are not: so the same run is weighed anew. The entry's parties count half
 * or double, the other `through` entries take the rest, all further entries stay. Tallies of nobody keep their number
 * per crossing. What neighbours in the doorway do to each other is taken to stay as it is.
 */
import type { MixEntry } from '../agents/schema.js';
import { type DoorCounts, wrongOf } from './door-counts.js';
import { bare, FEW_REPLICATES, jackknifeEstimate, sum, unknown, zeroEstimate } from './estimates.js';
import type { Estimate } from './metrics-schema.js';

export interface ShareRates {
  readonly who: string;
  readonly kind: string;
  readonly share: number;
  readonly half: Estimate;
  readonly double: Estimate;
}

/** Wrong per 100 crossings at half and at double the share of each entry of the mix, over replicates of one door. */
export function byAssumedShare(mix: readonly MixEntry[], replicates: readonly DoorCounts[]): ShareRates[] {
  return mix.map((entry, index) => ({
    who: entry.who,
    kind: entry.kind,
    share: entry.share,
    half: reweighted(mix, index, 0.5, replicates),
    double: reweighted(mix, index, 2, replicates),
  }));
}

function reweighted(
  mix: readonly MixEntry[],
  index: number,
  factor: number,
  replicates: readonly DoorCounts[],
): Estimate {
  const weights = weightsOf(mix, index, factor);
  if (typeof weights === 'string') return unknown(weights);
  const weigh = (value: (counts: DoorCounts['entries'][number]) => number) =>
    replicates.map((door) => sum(door.entries.map((counts, e) => (weights[e] ?? 1) * value(counts))));
  const wrong = weigh(wrongOf);
  const crossings = weigh((counts) => counts.crossings);
  const trueCrossings = replicates.map((door) => door.total.crossings);
  const nobody = replicates.map((door) => door.total.invented - sum(door.entries.map((counts) => counts.invented)));

  const allWrong = sum(wrong);
  const allCrossings = sum(crossings);
  const allNobody = sum(nobody);
  const n = sum(trueCrossings);
  if (allCrossings === 0) return unknown('no crossings');
  if (allWrong + allNobody === 0) return zeroEstimate(allCrossings, { scale: 100, nothing: 'no crossings', n });
  const value = 100 * (allWrong / allCrossings + allNobody / n);
  if (replicates.length < 2) return bare(value, n, FEW_REPLICATES);
  const leaveOneOut = replicates.map(
    (_, i) =>
      100 *
      ((allWrong - wrong[i]!) / (allCrossings - crossings[i]!) + (allNobody - nobody[i]!) / (n - trueCrossings[i]!)),
  );
  if (!leaveOneOut.every(Number.isFinite)) return bare(value, n, 'no crossings in all replicates but one');
  return jackknifeEstimate(value, leaveOneOut, n, 0);
}

/** Weight of each entry's visits, or why there is none. */
function weightsOf(mix: readonly MixEntry[], index: number, factor: number): readonly number[] | string {
  const takesRest = mix.map((entry, e) => entry.kind === 'through' && e !== index);
  const rest = sum(mix.map((entry, e) => (takesRest[e] ? entry.share : 0)));
  if (rest === 0) return 'no other through entry takes the rest';
  const restAfter = rest + mix[index]!.share * (1 - factor);
  if (restAfter < 0) return 'more than the through entries could make room for';
  return mix.map((_, e) => (e === index ? factor : takesRest[e] ? restAfter / rest : 1));
}
