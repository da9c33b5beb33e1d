/** Events of a log in order of time: late ones wait a moment for those before them, and what was written twice counts once. */
import { Agenda } from '../../engine/agenda.js';
import { LATE_US } from './time-mender.js';

export interface LogEvent {
  readonly time_us: number;
  /** Indices in the design. */
  readonly door: number;
  readonly beam: number;
  /** 0 or 1 for an edge; of a reading null. */
  readonly level: 0 | 1 | null;
  /** Whole micrometres, −1 without echo; of an edge null. */
  readonly distance_um: number | null;
}

export class InOrder {
  outOfOrder = 0;
  duplicates = 0;
  private readonly waiting = new Agenda<LogEvent>();
  private latest_us = -Infinity;
  private given_us = -Infinity;
  /** The last event of each beam that was given out: by door · 8 + beam. */
  private readonly last = new Map<number, LogEvent>();

  constructor(private readonly give: (event: LogEvent) => void) {}

  /** The next row, not earlier than the latest before it by more than {@link LATE_US}. */
  put(event: LogEvent): void {
    if (event.time_us < this.latest_us) this.outOfOrder++;
    else this.latest_us = event.time_us;
    // Of a live log that was quiet for a while all has been given out: what comes late then comes now.
    const time_us = Math.max(event.time_us, this.given_us);
    this.waiting.put(time_us, time_us === event.time_us ? event : { ...event, time_us });
    this.release(this.latest_us - LATE_US);
  }

  /** Nothing earlier is to come any more. */
  release(until_us = Infinity): void {
    while (this.waiting.peekTime() <= until_us && this.waiting.peekTime() < Infinity) {
      const event = this.waiting.take() as LogEvent;
      const key = event.door * 8 + event.beam;
      const last = this.last.get(key);
      if (last && same(last, event)) {
        this.duplicates++;
        continue;
      }
      this.last.set(key, event);
      this.given_us = event.time_us;
      this.give(event);
    }
  }
}

function same(a: LogEvent, b: LogEvent): boolean {
  return a.time_us === b.time_us && a.level === b.level && a.distance_um === b.distance_um;
}
