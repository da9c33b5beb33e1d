/** The visits and tallies a {@link DoorScorer} holds: those of the open cluster first, then those that wait. */
import type { Visit } from '../agents/visit.js';
import type { ScoreSink, Sign } from './score-sink.js';
import { Matcher, type Verdict } from './match.js';
import { crossingsOf } from './truth.js';

export class Cluster {
  /** In order of entering. The open cluster is `first` up to `joined`; those up to `size` wait. */
  readonly visits: Visit[] = [];
  first = 0;
  joined = 0;
  size = 0;
  /** Tallies in order of time, from `tallyFirst` up to `tallySize`. */
  readonly times: number[] = [];
  readonly signs: Sign[] = [];
  tallyFirst = 0;
  tallySize = 0;
  /** Tallies up to here came before the last visit that joined. */
  tallySeen = 0;
  /** By place in the cluster, after {@link match}: the visit a tally belongs to, and whether it is that visit's match. */
  readonly owners: number[] = [];
  readonly matched: boolean[] = [];

  private readonly matcher = new Matcher();
  private readonly verdicts: Verdict[] = [];

  constructor(
    readonly latency_us: number,
    private readonly sink: ScoreSink,
  ) {}

  endOf(visit: Visit): number {
    return visit.leave_us + this.latency_us;
  }

  /** Index of the first tally at `time_us` or later. */
  tallyBefore(time_us: number): number {
    let t = Math.max(this.tallyFirst, this.tallySeen);
    while (t < this.tallySize && this.times[t]! < time_us) t++;
    return t;
  }

  /** Hands over tallies before `time_us` that no visit covers. */
  passNobody(time_us: number): void {
    while (this.tallyFirst < this.tallySize && this.times[this.tallyFirst]! < time_us) {
      this.sink.nobody(this.times[this.tallyFirst]!, this.signs[this.tallyFirst]!);
      this.tallyFirst++;
    }
  }

  /** Finds the owners of tallies up to `tallyTo`. */
  match(tallyTo: number): void {
    const { visits, first, joined, times, signs, tallyFirst, latency_us, owners, matched } = this;
    this.matcher.match(visits, first, joined, times, signs, tallyFirst, tallyTo, latency_us, owners, matched);
  }

  /** Matches and judges the whole cluster, tallies up to `tallyTo`, and forgets it. */
  settle(tallyTo: number): void {
    const tallies = tallyTo - this.tallyFirst;
    if (tallies === 0) {
      this.judgeUnseen();
    } else if (tallies === 1 && this.joined - this.first === 1 && crossingsOf(this.visits[this.first]!) <= 1) {
      this.judgeAlone(this.signs[this.tallyFirst]!);
    } else {
      this.match(tallyTo);
      this.judge(this.joined, tallyTo);
    }
    this.first = this.joined;
    this.tallyFirst = tallyTo;
  }

  /** Hands over the verdicts of visits `first` up to `visitTo` from the owners of tallies up to `tallyTo`; owner −1 is skipped. */
  judge(visitTo: number, tallyTo: number): void {
    const { first, owners, matched, signs } = this;
    for (let i = first; i < visitTo; i++) this.blank(i - first);
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
      verdict.nothing = (crossingsOf(visit) || 1) - verdict.forward - verdict.backward;
      this.sink.visit(visit, verdict);
    }
  }

  /** Frees the places of what has been judged: at once when nothing waits, else when it is the larger part. */
  forget(): void {
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

  /** The commonest cluster: one visit with one entry, and its tally. */
  private judgeAlone(sign: Sign): void {
    const verdict = this.blank(0);
    if (sign > 0) verdict.forward = 1;
    else verdict.backward = 1;
    verdict.net = sign;
    this.sink.visit(this.visits[this.first]!, verdict);
  }

  private judgeUnseen(): void {
    const verdict = this.blank(0);
    for (let i = this.first; i < this.joined; i++) {
      const visit = this.visits[i]!;
      verdict.nothing = crossingsOf(visit) || 1;
      this.sink.visit(visit, verdict);
    }
  }

  /** A blank verdict for the k-th visit of the cluster. */
  private blank(k: number): Verdict {
    const verdict = (this.verdicts[k] ??= { forward: 0, backward: 0, nothing: 0, extra: 0, net: 0 });
    verdict.forward = verdict.backward = verdict.nothing = verdict.extra = verdict.net = 0;
    return verdict;
  }
}
