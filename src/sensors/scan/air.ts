/** Bursts that are still in the air: what one ranger sent, another may hear. */
import type { BurstSource, Scene } from '../ranger.js';
import { soundPerMetre_us } from '../ranger.js';
import type { Slot } from './slot.js';

/** How a listening ranger is reached by another's bursts; null when it never is. */
export type Reaches = (listener: Slot, source: Slot) => BurstSource | null;

/** One ranger as heard by another. */
interface Way {
  readonly source: BurstSource;
  readonly farthest_m: number;
}

export class Air {
  /** After so long no burst is heard any more, microseconds. */
  readonly stays_us: number;
  private readonly times: number[] = [];
  private readonly sources: Slot[] = [];
  private readonly ways = new Map<Slot, Map<Slot, Way>>();
  private readonly lengths: number[] = [];

  /** @param slots all rangers of the house */
  constructor(slots: readonly Slot[], reaches: Reaches) {
    let stays_us = 0;
    for (const listener of slots) {
      const { ear } = listener.ranger;
      if (ear === null) continue;
      const own = new Map<Slot, Way>();
      this.ways.set(listener, own);
      for (const source of slots) {
        const reached = source.ranger.ear === null ? null : reaches(listener, source);
        if (reached === null) continue;
        const farthest_m = ear.farthest_m(reached);
        if (farthest_m === 0) continue;
        own.set(source, { source: reached, farthest_m });
        stays_us = Math.max(stays_us, farthest_m * soundPerMetre_us(ear));
      }
    }
    this.stays_us = Math.ceil(stays_us);
  }

  /** Whether one ranger's bursts may reach another at all. */
  mayHear(listener: Slot, source: Slot): boolean {
    return this.ways.get(listener)?.has(source) ?? false;
  }

  /** A burst is sent. Bursts come in order of time. */
  send(time_us: number, source: Slot): void {
    const { times, sources } = this;
    let old = 0;
    while (old < times.length && (times[old] as number) < time_us - this.stays_us) old++;
    if (old > 0) {
      for (let i = old; i < times.length; i++) {
        times[i - old] = times[i] as number;
        sources[i - old] = sources[i] as Slot;
      }
      for (let i = 0; i < old; i++) {
        times.pop();
        sources.pop();
      }
    }
    times.push(time_us);
    sources.push(source);
  }

  /** The bursts of some rangers go on by so much: after a jump over quiet rounds, which all were alike. */
  shift(by_us: number, whose: (source: Slot) => boolean): void {
    for (let i = 0; i < this.times.length; i++)
      if (whose(this.sources[i] as Slot)) this.times[i] = (this.times[i] as number) + by_us;
  }

  /** What a ranger that listens since its turn began sees, when any burst in the air is heard before its own echo. */
  hear(listener: Slot, scene: Scene): void {
    for (let i = 0; i < this.times.length; i++)
      this.hearOne(listener, scene, this.times[i] as number, this.sources[i] as Slot);
  }

  /** The same for one burst; it may be sent after the listener began. */
  hearOne(listener: Slot, scene: Scene, sent_us: number, source: Slot): void {
    const { ear } = listener.ranger;
    if (ear === null || listener.befallen || listener.noiseless) return;
    // A ranger's own burst of this turn is what it sees anyhow.
    if (source === listener && sent_us === listener.start_us) return;
    const way = this.ways.get(listener)?.get(source);
    if (way === undefined) return;
    const per_us = soundPerMetre_us(ear);
    const age_us = listener.start_us - sent_us;
    const [from_us, to_us] = ear.window_us;
    const least_m = (age_us + from_us) / per_us;
    // What comes later than its own echo is not waited for.
    const most_m = Math.min((age_us + to_us) / per_us, age_us / per_us + 2 * listener.seen_m);
    if (!(least_m < most_m) || least_m > way.farthest_m) return;
    const { lengths } = this;
    while (lengths.length > 0) lengths.pop();
    ear.arrivals(way.source, scene, least_m, most_m, lengths);
    for (const length_m of lengths) {
      const seen_m = ear.seenAfter(length_m * per_us - age_us);
      if (seen_m >= listener.seen_m) continue;
      listener.seen_m = seen_m;
      listener.heard = true;
    }
  }
}
