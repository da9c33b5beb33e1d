/** Walkers of a door's mix going through alone, measured at the beams before any electronics. */
import { nodeAt } from '../agents/motion/motion.js';
import type { Stream } from '../engine/stream.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { BeamPath } from '../sensors/door-sensors.js';
import { trueBreaks } from './body-parts.js';
import type { Arrival, PartyAlone } from './parties.js';
import { partiesAlone } from './parties.js';
import type { Weighted } from './weighted.js';

export interface Crossing {
  readonly arrival: Arrival;
  /** Per beam, seconds since the visit began: [start, end, start, end, …]. */
  readonly breaks: readonly (readonly number[])[];
}

/** Share of a door's parties by walker, whatever they do there. */
export function sharesByWalker(door: DesignDoor): Map<string, number> {
  const shares = new Map<string, number>();
  for (const { who, share } of door.traffic.mix) shares.set(who, (shares.get(who) ?? 0) + share);
  return new Map([...shares].filter(([, share]) => share > 0));
}

/** So many lone crossings of every walker of the mix, weighted by the walker's share of parties. */
export function sampleCrossings(
  design: Design,
  door: DesignDoor,
  paths: readonly BeamPath[],
  count: number,
  stream: Stream,
): Weighted<Crossing>[] {
  return [...sharesByWalker(door)].flatMap(([who, share]) => {
    const choice = { who, kind: 'through', forward_share: 0.5 } as const;
    return partiesAlone(door, design.walkers, choice, count, stream.child(who)).map((party) => {
      const arrival = (party as PartyAlone)[0] as Arrival;
      return {
        item: { arrival, breaks: paths.map((path) => trueBreaks(arrival, path)) },
        weight: share / count,
      };
    });
  });
}

/** Lengths of the breaks, or of the gaps between them, seconds. */
export function lengthsOf(breaks: readonly number[], what: 'breaks' | 'gaps'): number[] {
  const lengths: number[] = [];
  for (let i = what === 'breaks' ? 0 : 1; i + 1 < breaks.length; i += 2)
    lengths.push((breaks[i + 1] as number) - (breaks[i] as number));
  return lengths;
}

/** Way walked along the door's axis during the longest break of a beam, metres; null if it isn't broken. */
export function depthOf({ arrival, breaks }: Crossing, beam: number): number | null {
  const intervals = breaks[beam] ?? [];
  let longest = -1;
  for (let i = 0; i < intervals.length; i += 2)
    if (longest < 0 || spanAt(intervals, i) > spanAt(intervals, longest)) longest = i;
  if (longest < 0) return null;
  const { motion } = arrival.passage;
  const start = nodeAt(motion, intervals[longest] as number);
  const end = nodeAt(motion, intervals[longest + 1] as number);
  const { advance, nodes } = start.stretch.tracks.span;
  const perNode = (advance * arrival.body.unit_m) / nodes;
  return (end.node - start.node) * perNode * Math.abs(start.stretch.frame.cos);
}

function spanAt(intervals: readonly number[], i: number): number {
  return (intervals[i + 1] as number) - (intervals[i] as number);
}

/** Whether two beams are ever broken at one moment. */
export function together(a: readonly number[], b: readonly number[]): boolean {
  for (let i = 0; i < a.length; i += 2)
    for (let j = 0; j < b.length; j += 2)
      if ((a[i] as number) < (b[j + 1] as number) && (b[j] as number) < (a[i + 1] as number)) return true;
  return false;
}
