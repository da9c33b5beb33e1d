/**
 * A sensor that says whether anybody is in a room, not how many: driven by the truth, with misses of its own.
 *
 * It could see somebody whenever the number of persons rises, and once each `hold_min` from the moment the room was last
 * entered while empty, as long as somebody stays. Each time it misses with the same chance, independently. It says
 * occupied from a sighting until `hold_min` after the last one.
 */
import type { Stream } from '../../engine/stream.js';
import { MINUTE_US } from '../../engine/time.js';
import type { PresenceSettings } from './schema.js';

export class PresenceSensor {
  /** What it says. */
  occupied = false;
  private readonly hold_us: number;
  private persons = 0;
  private look_us = Infinity;
  private off_us = Infinity;
  private looks = 0;

  /** @param stream the room's own: draw n is its n-th look */
  constructor(
    private readonly settings: PresenceSettings,
    private readonly stream: Stream,
  ) {
    this.hold_us = Math.max(1, Math.round(settings.hold_min * MINUTE_US));
  }

  /** When it looks, or falls to empty, next; Infinity for never. */
  get wake_us(): number {
    return Math.min(this.look_us, this.off_us);
  }

  /** From `time_us` on so many persons are in the room. */
  truth(time_us: number, persons: number): void {
    const before = this.persons;
    this.persons = persons;
    if (persons === 0) this.look_us = Infinity;
    else if (before === 0) this.look_us = time_us + this.hold_us;
    if (persons > before) this.look(time_us);
  }

  /** The time of {@link wake_us} has come. A look at the very end of the hold comes before the fall. */
  wake(): void {
    const time_us = this.wake_us;
    if (this.look_us === time_us) {
      this.look_us += this.hold_us;
      this.look(time_us);
    }
    if (this.off_us === time_us) {
      this.off_us = Infinity;
      this.occupied = false;
    }
  }

  private look(time_us: number): void {
    if (this.stream.at(this.looks++) < this.settings.miss_share) return;
    this.occupied = true;
    this.off_us = time_us + this.hold_us;
  }
}
