/** Bursts that are still in the air: what one ranger sent, another may hear. */
import type { BurstSource, Scene } from '../ranger.js';
import type { Slot } from './slot.js';

/** After so long no burst is heard any more: 34 m of way. Absorption alone takes 45 dB of 40 kHz by then. */
export const STAYS_US = 100_000;

/** How a listening ranger is reached by another's bursts; null when it never is. */
export type Reaches = (listener: Slot, source: Slot) => BurstSource | null;

export class Air {
  private readonly times: number[] = [];
  private readonly sources: Slot[] = [];
  private readonly ways: number[] = [];

  constructor(private readonly reaches: Reaches) {}

  /** A burst is sent. Bursts come in order of time. */
  send(time_us: number, source: Slot): void {
    let old = 0;
    while (old < this.times.length && (this.times[old] as number) < time_us - STAYS_US) old++;
    this.times.splice(0, old);
    this.sources.splice(0, old);
    this.times.push(time_us);
    this.sources.push(source);
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
    if (ear === null || listener.befallen) return;
    // A ranger's own burst of this turn is what it sees anyhow.
    if (source === listener && sent_us === listener.start_us) return;
    const perMetre = 1e6 / ear.speed_mps;
    const age_us = listener.start_us - sent_us;
    const [from_us, to_us] = ear.window_us;
    if (age_us + from_us > ear.farthest_m * perMetre) return;
    const way = this.reaches(listener, source);
    if (way === null) return;
    const { ways } = this;
    while (ways.length > 0) ways.pop();
    ear.arrivals(way, scene, ways);
    for (const length_m of ways) {
      const delay_us = length_m * perMetre - age_us;
      if (delay_us < from_us || delay_us > to_us) continue;
      const seen_m = ear.seenAfter(delay_us);
      if (seen_m < listener.seen_m) listener.seen_m = seen_m;
    }
  }
}
