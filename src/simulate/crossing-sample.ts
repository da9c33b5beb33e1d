/** Walkers of a door's mix going through alone, as beams meet them: before any electronics, noise and chance. */
import { nodeAt } from '../agents/motion/motion.js';
import type { Stream } from '../engine/stream.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { BeamPath } from '../sensors/door-sensors.js';
import { trueBreaks } from './body-parts.js';
import type { Arrival, PartyAlone } from './parties.js';
import { partiesAlone } from './parties.js';
import type { Interval } from './ranger-fact-types.js';
import type { RangerCrossing } from './ranger-facts-trace.js';
import { rangerCrossing } from './ranger-facts-trace.js';
import type { Placed } from './ranger-facts-house.js';
import { lengthAt } from './stretches.js';
import type { Weighted } from './weighted.js';

export interface Crossing {
  readonly arrival: Arrival;
  /**
   * Per beam, seconds since the visit began: [start, end, start, end, …]. True breaks of a barrier's beam; of a ranger
   * when it would read nearer than its switching point.
   */
  readonly breaks: readonly (readonly number[])[];
  /** Per beam; null for a barrier's. */
  readonly rangers: readonly (RangerCrossing | null)[];
}

/** A ranger and how often it is read. */
export interface ReadRanger {
  readonly placed: Placed;
  readonly interval: Interval;
}

/** Share of a door's parties by walker, whatever they do there. */
export function sharesByWalker(door: DesignDoor): Map<string, number> {
  const shares = new Map<string, number>();
  for (const { who, share } of door.traffic.mix) shares.set(who, (shares.get(who) ?? 0) + share);
  return new Map([...shares].filter(([, share]) => share > 0));
}

/**
 * So many lone crossings of every walker of the mix, weighted by the walker's share of parties.
 *
 * @param paths of barriers' beams and rangers' axes @param rangers per beam; null for a barrier
 */
export function sampleCrossings(
  design: Design,
  door: DesignDoor,
  paths: readonly BeamPath[],
  rangers: readonly (ReadRanger | null)[],
  count: number,
  stream: Stream,
): Weighted<Crossing>[] {
  return [...sharesByWalker(door)].flatMap(([who, share]) => {
    const choice = { who, kind: 'through', forward_share: 0.5 } as const;
    const own = stream.child(who);
    return partiesAlone(door, design.walkers, choice, count, own).map((party, n) => ({
      item: crossingOf((party as PartyAlone)[0] as Arrival, paths, rangers, own.child('reading').nth(n)),
      weight: share / count,
    }));
  });
}

function crossingOf(
  arrival: Arrival,
  paths: readonly BeamPath[],
  rangers: readonly (ReadRanger | null)[],
  stream: Stream,
): Crossing {
  const breaks = paths.map((path) => trueBreaks(arrival, path));
  const [clothing, phase] = [stream.at(0), stream.at(1)];
  const seen = rangers.map(
    (one, i) =>
      one && rangerCrossing(one.placed, arrival, one.interval.idle_ms, breaks[i] as number[], clothing, phase),
  );
  return { arrival, breaks: breaks.map((own, i) => seen[i]?.near_s ?? own), rangers: seen };
}

/** Way walked along the door's axis during the longest break of a beam, metres; null if it isn't broken. */
export function depthOf({ arrival, breaks }: Crossing, beam: number): number | null {
  const intervals = breaks[beam] ?? [];
  let longest = -1;
  for (let i = 0; i < intervals.length; i += 2)
    if (longest < 0 || lengthAt(intervals, i) > lengthAt(intervals, longest)) longest = i;
  if (longest < 0) return null;
  const { motion } = arrival.passage;
  const start = nodeAt(motion, intervals[longest] as number);
  const end = nodeAt(motion, intervals[longest + 1] as number);
  const { advance, nodes } = start.stretch.tracks.span;
  const perNode = (advance * arrival.body.unit_m) / nodes;
  return (end.node - start.node) * perNode * Math.abs(start.stretch.frame.cos);
}
