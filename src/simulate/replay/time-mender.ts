/**
 * Times of a log made to run forward: counters of 32 bits that wrap are unwrapped, and silences that may hide a whole
 * turn of the counter are told.
 */

/** Rows may be late by this much: loggers that gather rows write them out of order. */
export const LATE_US = 2_000_000;
const TURNS = 4_294_967_296;
/** Without a row for this long a microsecond counter may have turned unseen: it turns every 71.6 minutes. */
export const SILENCE_US = 1_800_000_000;

export interface Silence {
  /** Of the row that ended it. */
  readonly line: number;
  /** When it began, microseconds since the log's first row. */
  readonly from_us: number;
  /** It lasted so long at least, or longer by whole turns of the counter: durations across it are not known. */
  readonly at_least_us: number;
}

/** Why a time can't be mended: it is earlier than what came before by this much. */
export interface Backwards {
  readonly back_us: number;
}

export class TimeMender {
  wraps = 0;
  readonly silences: Silence[] = [];
  /** The latest time so far, mended; −Infinity before the first. */
  latest_us = -Infinity;
  private first_us = 0;
  private offset_us = 0;
  /** One turn of the counter; 0 for what doesn't turn. */
  private turn_us: number;

  /** @param unit_us microseconds a count, of a counter that may have 32 bits; null for times that are no counter's */
  constructor(private readonly unit_us: number | null) {
    this.turn_us = unit_us === null ? 0 : unit_us * TURNS;
  }

  /** @param time_us whole microseconds as written @param line for silences */
  mend(time_us: number, line: number): number | Backwards {
    if (this.latest_us === -Infinity) this.first_us = time_us;
    // What counts beyond 32 bits does not turn there.
    if (this.turn_us > 0 && time_us >= this.turn_us) {
      this.turn_us = 0;
      this.silences.length = 0;
    }
    const { turn_us, latest_us } = this;
    let mended_us = time_us + this.offset_us;
    if (turn_us > 0) {
      if (latest_us - mended_us > turn_us / 2) {
        this.offset_us += turn_us;
        this.wraps++;
        mended_us += turn_us;
      } else if (this.wraps > 0 && mended_us - latest_us > turn_us / 2 && mended_us - turn_us >= latest_us - LATE_US) {
        // A late row from before the turn.
        mended_us -= turn_us;
      }
    }
    if (mended_us < latest_us - LATE_US) return { back_us: latest_us - mended_us };
    if (turn_us > 0 && latest_us !== -Infinity && mended_us - latest_us >= this.silence_us())
      this.silences.push({ line, from_us: latest_us - this.first_us, at_least_us: mended_us - latest_us });
    this.latest_us = Math.max(latest_us, mended_us);
    return mended_us;
  }

  /** Half an hour of a microsecond counter, and the same share of a slower one's turn. */
  private silence_us(): number {
    return SILENCE_US * (this.unit_us ?? 1);
  }
}
