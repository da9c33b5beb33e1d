/**
 * Judges one logic at one door while the simulation runs: visits and tallies in, verdicts out, memory flat.
 *
 * A visit's window runs from entering to leaving plus the logic's latency. Visits whose windows overlap in a chain,
 * and the tallies in them, are one cluster, judged when nothing more can join it. A tally outside every window is
 * nobody's.
 */
import type { Visit } from '../agents/visit.js';
import type { Direction } from '../counter/logic.js';
import { Matcher, ownerOf, type Verdict } from './match.js';
import { crossingsOf } from './truth.js';

/** Takes what a {@link DoorScorer} finds, in order of time. */
export interface ScoreSink {
  /** A visit has been judged. The verdict is used again for the next one: copy what you keep. */
  visit(visit: Visit, verdict: Readonly<Verdict>): void;
  /** A tally while nobody was there; `sign` is +1 forward, −1 backward. */
  nobody(time_us: number, sign: 1 | -1): void;
}

/**
 * From this many visits and tallies on, an endless cluster (a wide door that never empties) is cut: all is matched,
 * the earlier part of what is over is settled for good, the rest is matched again with what comes. The cost of a visit
 * stays bounded, and wrongs can only be over-counted, where a settled match would have given way to a later one.
 */
export const LARGEST_CLUSTER = 256;

export class DoorScorer {
  private readonly matcher = new Matcher();
  private readonly visits: Visit[] = [];
  /** The open cluster is `visits[first]` up to `visits[joined]`; those up to `visits[size]` wait. */
  private first = 0;
  private joined = 0;
  private size = 0;
  /** End of the open cluster's last window, µs. */
  private end_us = 0;
  private cutAt: number;

  private readonly times: number[] = [];
  private readonly signs: (1 | -1)[] = [];
  private tallyFirst = 0;
  private tallySize = 0;
  /** Tallies up to here came before the last visit that joined. */
  private tallySeen = 0;

  /** By place in the cluster: the visit a tally belongs to, and whether it is that visit's match. */
  private readonly owners: number[] = [];
  private readonly matched: boolean[] = [];
  private now_us = -Infinity;
  private readonly verdicts: Verdict[] = [];

  constructor(
    private readonly latency_us: number,
    private readonly sink: ScoreSink,
    private readonly largestCluster = LARGEST_CLUSTER,
  ) {
    this.cutAt = largestCluster;
  }

  /** Visits and tallies held at present. */
  get held(): number {
    return this.size - this.first + (this.tallySize - this.tallyFirst);
  }

  /** Takes a visit, whole; in order of `enter_us`, not before a time advanced to. */
  visit(visit: Visit): void {
    if (visit.enter_us < this.now_us) throw new RangeError('DoorScorer: a visit comes too late');
    this.visits[this.size++] = visit;
  }

  /** Takes a tally; in order of time, not before a time advanced to. */
  tally(time_us: number, direction: Direction): void {
    if (time_us < this.now_us) throw new RangeError('DoorScorer: a tally comes too late');
    this.times[this.tallySize] = time_us;
    this.signs[this.tallySize++] = direction === 'forward' ? 1 : -1;
  }

  /** Says that nothing earlier than `time_us` will come, and judges what is complete. */
  advance(time_us: number): void {
    if (time_us < this.now_us) return;
    this.now_us = time_us;
    for (;;) {
      if (this.joined === this.first && !this.open(time_us)) break;
      while (this.joined < this.size) {
        const next = this.visits[this.joined]!;
        if (next.enter_us > this.end_us || next.enter_us >= time_us) break;
        this.join(next);
      }
      if (this.end_us >= time_us) break;
      this.settle();
    }
    this.forget();
  }

  /** Judges all that is left. */
  close(): void {
    this.advance(Infinity);
  }

  /** Opens a cluster with the next visit that has begun; tallies before it are nobody's. */
  private open(time_us: number): boolean {
    const next = this.joined < this.size ? this.visits[this.joined]! : undefined;
    const begins = next !== undefined && next.enter_us < time_us;
    const until_us = begins ? next.enter_us : time_us;
    while (this.tallyFirst < this.tallySize && this.times[this.tallyFirst]! < until_us) {
      this.sink.nobody(this.times[this.tallyFirst]!, this.signs[this.tallyFirst]!);
      this.tallyFirst++;
    }
    if (!begins) return false;
    this.end_us = next.leave_us + this.latency_us;
    this.joined++;
    return true;
  }

  private join(next: Visit): void {
    this.joined++;
    this.end_us = Math.max(this.end_us, next.leave_us + this.latency_us);
    // Only what came before the visit counts, so that the cut is the same however far ahead the caller feeds.
    this.tallySeen = this.tallyBefore(next.enter_us);
    if (this.joined - this.first + (this.tallySeen - this.tallyFirst) > this.cutAt) this.cut(next.enter_us);
  }

  /** Index of the first tally at `time_us` or later. */
  private tallyBefore(time_us: number): number {
    let t = Math.max(this.tallyFirst, this.tallySeen);
    while (t < this.tallySize && this.times[t]! < time_us) t++;
    return t;
  }

  /** Judges the whole cluster. */
  private settle(): void {
    const { first, joined, tallyFirst } = this;
    const tallyTo = this.tallyBefore(this.end_us + 1);
    if (joined - first > 1 && tallyTo > tallyFirst) {
      this.match(tallyTo);
      this.judge(joined, tallyTo);
    } else {
      this.judgeSimple(tallyTo);
    }
    this.first = joined;
    this.tallyFirst = tallyTo;
    this.cutAt = this.largestCluster;
  }

  /** The trivial clusters: no tally at all, or one visit that owns them all. */
  private judgeSimple(tallyTo: number): void {
    const visit = this.visits[this.first]!;
    const tallies = tallyTo - this.tallyFirst;
    const verdict = this.verdictAt(0);
    if (tallies === 0) {
      for (let i = this.first; i < this.joined; i++) {
        const other = this.visits[i]!;
        verdict.nothing = crossingsOf(other) || 1;
        this.sink.visit(other, verdict);
      }
    } else if (tallies === 1 && crossingsOf(visit) <= 1) {
      const sign = this.signs[this.tallyFirst]!;
      if (sign > 0) verdict.forward = 1;
      else verdict.backward = 1;
      verdict.net = sign;
      this.sink.visit(visit, verdict);
    } else {
      this.match(tallyTo);
      this.judge(this.joined, tallyTo);
    }
  }

  private match(tallyTo: number): void {
    this.matcher.match(
      this.visits,
      this.first,
      this.joined,
      this.times,
      this.signs,
      this.tallyFirst,
      tallyTo,
      this.latency_us,
      this.owners,
      this.matched,
    );
  }

  /** Hands over the verdicts of visits `first` up to `visitTo` from the owners of tallies up to `tallyTo`; owner −1 is skipped. */
  private judge(visitTo: number, tallyTo: number): void {
    const { first, owners, matched, signs } = this;
    for (let i = first; i < visitTo; i++) this.verdictAt(i - first);
    for (let k = 0; k < tallyTo - this.tallyFirst; k++) {
      const owner = owners[k]!;
      if (owner < 0) continue;
      const verdict = this.verdicts[owner - first]!;
      const sign = signs[this.tallyFirst + k]!;
      verdict.net += sign;
      const fills = matched[k]! || (crossingsOf(this.visits[owner]!) === 0 && verdict.forward + verdict.backward === 0);
      if (!fills) verdict.extra++;
      else if (sign > 0) verdict.forward++;
      else verdict.backward++;
    }
    for (let i = first; i < visitTo; i++) {
      const visit = this.visits[i]!;
      const verdict = this.verdicts[i - first]!;
      const entries = crossingsOf(visit) || 1;
      verdict.nothing = entries - verdict.forward - verdict.backward;
      this.sink.visit(visit, verdict);
    }
  }

  /** Settles the earlier part of the visits that were over before `horizon_us`, and the tallies that are theirs alone. */
  private cut(horizon_us: number): void {
    const { visits, first, joined, tallyFirst, owners, matched } = this;
    const over: number[] = [];
    for (let i = first; i < joined; i++) {
      const end_us = visits[i]!.leave_us + this.latency_us;
      if (end_us < horizon_us) over.push(end_us);
    }
    if (over.length < 2) {
      this.cutAt = 2 * (joined - first + (this.tallySeen - tallyFirst));
      return;
    }
    over.sort((a, b) => a - b);
    // Those over last stay as neighbours of what comes: half of them, and never more than a quarter of a cluster.
    const staysOver = Math.min(over.length >> 1, this.largestCluster >> 2);
    const last_us = over[over.length - staysOver - 1]!;
    const tallyTo = this.tallyBefore(horizon_us);
    this.match(tallyTo);

    // Settled visits to the front and staying ones behind, both in order; owners follow.
    const staying: Visit[] = [];
    const place: number[] = [];
    let settled = first;
    for (let i = first; i < joined; i++) {
      const visit = visits[i]!;
      if (visit.leave_us + this.latency_us <= last_us) {
        place[i - first] = settled;
        visits[settled++] = visit;
      } else {
        place[i - first] = -1;
        staying.push(visit);
      }
    }
    for (let k = 0; k < staying.length; k++) visits[settled + k] = staying[k]!;
    const kept: { time_us: number; sign: 1 | -1 }[] = [];
    for (let k = 0; k < tallyTo - tallyFirst; k++) {
      const time_us = this.times[tallyFirst + k]!;
      owners[k] = place[owners[k]! - first]!;
      // What was matched with nobody may still be matched with somebody who stays.
      if (!matched[k]! && this.mayMatch(settled, joined, time_us)) owners[k] = -1;
      if (owners[k]! < 0) kept.push({ time_us, sign: this.signs[tallyFirst + k]! });
    }
    this.judge(settled, tallyTo);
    this.first = settled;
    this.tallyFirst = tallyTo - kept.length;
    kept.forEach(({ time_us, sign }, k) => {
      this.times[this.tallyFirst + k] = time_us;
      this.signs[this.tallyFirst + k] = sign;
    });
    this.cutAt = Math.max(this.largestCluster, 2 * (joined - settled + kept.length));
  }

  /** Whether a tally may be matched with a crossing visit among `from` up to `to`. */
  private mayMatch(from: number, to: number, time_us: number): boolean {
    const owner = ownerOf(this.visits, from, to, time_us, this.latency_us);
    return owner >= 0 && crossingsOf(this.visits[owner]!) > 0;
  }

  /** A blank verdict for the k-th visit of the cluster. */
  private verdictAt(k: number): Verdict {
    const verdict = (this.verdicts[k] ??= { forward: 0, backward: 0, nothing: 0, extra: 0, net: 0 });
    verdict.forward = verdict.backward = verdict.nothing = verdict.extra = verdict.net = 0;
    return verdict;
  }

  /** Frees the places of what has been judged: at once when nothing waits, else when it is the larger part. */
  private forget(): void {
    if (this.first === this.size) {
      this.first = this.joined = this.size = 0;
    } else if (this.first > 1024 && 2 * this.first > this.size) {
      this.visits.copyWithin(0, this.first, this.size);
      this.joined -= this.first;
      this.size -= this.first;
      this.first = 0;
    }
    if (this.tallyFirst === this.tallySize) {
      this.tallyFirst = this.tallySize = this.tallySeen = 0;
    } else if (this.tallyFirst > 1024 && 2 * this.tallyFirst > this.tallySize) {
      this.times.copyWithin(0, this.tallyFirst, this.tallySize);
      this.signs.copyWithin(0, this.tallyFirst, this.tallySize);
      this.tallySize -= this.tallyFirst;
      this.tallySeen = Math.max(0, this.tallySeen - this.tallyFirst);
      this.tallyFirst = 0;
    }
  }
}
