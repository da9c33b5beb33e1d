/**
 * Judges one logic at one door while the simulation runs: visits and tallies in, verdicts out, memory flat.
 *
 * A visit's window runs from entering to leaving plus the logic's latency. Visits whose windows overlap in a chain,
 * and the tallies in them, are one cluster, judged when nothing more can join it. A tally outside every window is
 * nobody's.
 */
import type { Visit } from '../agents/visit.js';
import type { Direction } from '../counter/logic.js';
import { Cluster } from './cluster.js';
import { ownerOf } from './match.js';
import { crossingsOf } from './truth.js';
import type { ScoreSink, Sign } from './score-sink.js';

/**
 * From this many visits and tallies on, an endless cluster (a wide door that never empties) is cut: all is matched,
 * the earlier part of what is over is settled for good, the rest is matched again with what comes. The cost of a visit
 * stays bounded, and wrongs can only be over-counted, where a settled match would have given way to a later one.
 */
export const LARGEST_CLUSTER = 256;

export class DoorScorer {
  private readonly cluster: Cluster;
  /** End of the open cluster's last window, µs. */
  private end_us = 0;
  private now_us = -Infinity;
  private cutAt: number;

  /**
   * @param latency_us how long after leaving a tally may still come, microseconds
   * @param sink takes verdicts as soon as they are final
   * @param largestCluster {@link LARGEST_CLUSTER} unless a test wants another; Infinity never cuts
   */
  constructor(
    latency_us: number,
    sink: ScoreSink,
    private readonly largestCluster = LARGEST_CLUSTER,
  ) {
    this.cluster = new Cluster(latency_us, sink);
    this.cutAt = largestCluster;
  }

  /** Visits and tallies held at present. */
  get held(): number {
    const { size, first, tallySize, tallyFirst } = this.cluster;
    return size - first + (tallySize - tallyFirst);
  }

  /** Takes a visit, whole; in order of `enter_us`, not before a time advanced to. */
  visit(visit: Visit): void {
    if (visit.enter_us < this.now_us) throw new RangeError('DoorScorer: a visit comes too late');
    this.cluster.visits[this.cluster.size++] = visit;
  }

  /** Takes a tally; in order of time, not before a time advanced to. */
  tally(time_us: number, direction: Direction): void {
    if (time_us < this.now_us) throw new RangeError('DoorScorer: a tally comes too late');
    this.cluster.times[this.cluster.tallySize] = time_us;
    this.cluster.signs[this.cluster.tallySize++] = direction === 'forward' ? 1 : -1;
  }

  /** Says that nothing earlier than `time_us` will come, and judges what is complete. */
  advance(time_us: number): void {
    if (time_us < this.now_us) return;
    this.now_us = time_us;
    const { cluster } = this;
    for (;;) {
      if (cluster.joined === cluster.first && !this.open(time_us)) break;
      while (cluster.joined < cluster.size) {
        const next = cluster.visits[cluster.joined]!;
        if (next.enter_us > this.end_us || next.enter_us >= time_us) break;
        this.join(next);
      }
      if (this.end_us >= time_us) break;
      cluster.settle(cluster.tallyBefore(this.end_us + 1));
      this.cutAt = this.largestCluster;
    }
    cluster.forget();
  }

  /** Judges all that is left. */
  close(): void {
    this.advance(Infinity);
  }

  /** Opens a cluster with the next visit that has begun; tallies before it are nobody's. */
  private open(time_us: number): boolean {
    const { cluster } = this;
    const next = cluster.joined < cluster.size ? cluster.visits[cluster.joined]! : undefined;
    const begins = next !== undefined && next.enter_us < time_us;
    cluster.passNobody(begins ? next.enter_us : time_us);
    if (!begins) return false;
    this.end_us = cluster.endOf(next);
    cluster.joined++;
    return true;
  }

  private join(next: Visit): void {
    const { cluster } = this;
    cluster.joined++;
    this.end_us = Math.max(this.end_us, cluster.endOf(next));
    // Only what came before the visit counts, so that the cut is the same however far ahead the caller feeds.
    cluster.tallySeen = cluster.tallyBefore(next.enter_us);
    const size = cluster.joined - cluster.first + (cluster.tallySeen - cluster.tallyFirst);
    if (size > this.cutAt) this.cut(next.enter_us, size);
  }

  /** Settles the earlier part of the visits that were over before `horizon_us`, and the tallies that are theirs alone. */
  private cut(horizon_us: number, size: number): void {
    const { cluster } = this;
    const { visits, first, joined, times, signs, tallyFirst, tallySeen, owners, matched } = cluster;
    const ends: number[] = [];
    for (let i = first; i < joined; i++) {
      const end_us = cluster.endOf(visits[i]!);
      if (end_us < horizon_us) ends.push(end_us);
    }
    if (ends.length < 2) {
      this.cutAt = 2 * size;
      return;
    }
    ends.sort((a, b) => a - b);
    // Those over last stay as neighbours of what comes: half of them, and never more than a quarter of a cluster.
    const stay = Math.min(ends.length >> 1, this.largestCluster >> 2);
    const last_us = ends[ends.length - stay - 1]!;
    cluster.match(tallySeen);

    // Settled visits to the front and staying ones behind, both in order; owners follow.
    const staying: Visit[] = [];
    const place: number[] = [];
    let settled = first;
    for (let i = first; i < joined; i++) {
      const visit = visits[i]!;
      const stays = cluster.endOf(visit) > last_us;
      place.push(stays ? -1 : settled);
      if (stays) staying.push(visit);
      else visits[settled++] = visit;
    }
    for (const [k, visit] of staying.entries()) visits[settled + k] = visit;
    const kept: { time_us: number; sign: Sign }[] = [];
    for (let k = 0; k < tallySeen - tallyFirst; k++) {
      const time_us = times[tallyFirst + k]!;
      owners[k] = place[owners[k]! - first]!;
      // What was matched with nobody may still be matched with somebody who stays.
      if (!matched[k]! && this.mayMatch(settled, joined, time_us)) owners[k] = -1;
      if (owners[k]! < 0) kept.push({ time_us, sign: signs[tallyFirst + k]! });
    }
    cluster.judge(settled, tallySeen);
    cluster.first = settled;
    cluster.tallyFirst = tallySeen - kept.length;
    for (const [k, { time_us, sign }] of kept.entries()) {
      times[cluster.tallyFirst + k] = time_us;
      signs[cluster.tallyFirst + k] = sign;
    }
    this.cutAt = Math.max(this.largestCluster, 2 * (staying.length + kept.length));
  }

  /** Whether a tally may be matched with a crossing visit among `from` up to `to`. */
  private mayMatch(from: number, to: number, time_us: number): boolean {
    const { visits, latency_us } = this.cluster;
    // People who cross come first among owners, so one who does not means that there is none who does.
    const owner = ownerOf(visits, from, to, time_us, latency_us);
    return owner >= 0 && crossingsOf(visits[owner]!) > 0;
  }
}
