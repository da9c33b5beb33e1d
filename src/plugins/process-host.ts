/**
 * Drives a program for one door. Lines are gathered and sent together: one exchange tells the program all that happened
 * up to an instant and brings its tallies back.
 *
 * A program keeps its state to itself. So what it was told since it was started is remembered: a snapshot is a piece of
 * that history, and going on from it is a fresh program that is told the same.
 */
import { LogicError } from '../counter/host-check.js';
import type { DoorHost, HostHooks, HostSnapshot } from '../counter/host.js';
import type { Readings } from '../counter/logic.js';
import type { Parkable } from './bridge.js';
import { CodeProblem, shownText } from './code-problem.js';
import { type ProcessParts, greet } from './greet.js';
import { processProblem } from './process-words.js';
import { type Line, ProgramAnswers } from './program-answers.js';
import { type ProgramAbout, lineText } from './protocol.js';

/** So many lines at most go together. */
const BATCH = 2000;
/** So many lines from the beams since the program was started are remembered, at most. */
export const MOST_REMEMBERED = 250_000;

const NO_LINE: Line = { time_us: Number.MIN_SAFE_INTEGER, mask: 0, readings: undefined, tick: false };

interface ProcessSnapshot extends HostSnapshot {
  readonly history: readonly Line[];
  /** How much of the history is the snapshot's. */
  readonly length: number;
  /** Up to where ticks had been given. */
  readonly until_us: number;
}

export class ProcessHost implements DoorHost, Parkable {
  private id: number | null = null;
  private answers: ProgramAnswers;
  /** Lines from the beams since the program was started; null once they are too many. */
  private history: Line[] | null = [];
  /** The last line from the beams. */
  private last = NO_LINE;
  /** When the last tick was given, or the last line from the beams. */
  private until_us = NO_LINE.time_us;
  /** Not sent yet. */
  private pending: Line[] = [];
  private flushes = 0;

  constructor(
    private readonly parts: ProcessParts,
    private readonly about: ProgramAbout,
    private readonly hooks: HostHooks,
    from?: HostSnapshot,
  ) {
    this.answers = new ProgramAnswers(parts, hooks, from?.label ?? about.state ?? '');
    if (!from) return;
    const { history, length, until_us } = from as ProcessSnapshot;
    this.history = history.slice(0, length);
    this.last = this.history.at(-1) ?? NO_LINE;
    this.until_us = until_us;
  }

  inputMask(time_us: number, mask: number, readings?: Readings): void {
    if (!Number.isSafeInteger(time_us) || time_us < this.last.time_us)
      throw new RangeError(`an input at ${time_us} µs cannot follow one at ${this.last.time_us} µs`);
    this.tickUntil(time_us - 1);
    const line: Line = { time_us, mask, readings: this.about.readings ? (readings ?? []) : undefined, tick: false };
    if (this.history && this.history.length >= MOST_REMEMBERED) this.history = null;
    this.history?.push(line);
    this.take(line);
  }

  reset(time_us: number, mask: number): void {
    this.close();
    this.pending = [];
    this.history = [];
    this.last = NO_LINE;
    this.until_us = NO_LINE.time_us;
    this.answers = new ProgramAnswers(this.parts, this.hooks, this.about.state ?? '');
    if (mask !== 0) this.inputMask(time_us, mask);
  }

  finish(until_us: number): void {
    this.tickUntil(until_us);
    this.flush();
  }

  snapshot(): ProcessSnapshot {
    this.flush();
    const { history, until_us, about, last, parts } = this;
    if (!history)
      throw new CodeProblem(
        `the program ${shownText(parts.code.shown)} was told over ${MOST_REMEMBERED} lines at door ${shownText(parts.door.name)}: that is too much to go back to`,
        'simulate fewer hours',
      );
    const { label } = this.answers;
    const resting = last.mask === 0 && (about.state === null || about.state === label);
    return { label, resting, history, length: history.length, until_us };
  }

  close(): void {
    if (this.id !== null) this.parts.bridge.end(this.id);
    this.id = null;
  }

  park(): boolean {
    if (!this.history) return false;
    this.close();
    return true;
  }

  private take(line: Line): void {
    this.last = line;
    this.until_us = line.time_us;
    this.say(line);
  }

  /** Unchanged lines while the program may wait for something. */
  private tickUntil(until_us: number): void {
    const { tick_us, longest_timeout_us } = this.about;
    const { last } = this;
    if (tick_us === 0 || last === NO_LINE) return;
    const end_us = Math.min(until_us, last.time_us + longest_timeout_us);
    while (this.until_us + tick_us <= end_us) {
      this.until_us += tick_us;
      this.say({ ...last, time_us: this.until_us, tick: true });
    }
  }

  private say(line: Line): void {
    this.pending.push(line);
    if (this.pending.length >= BATCH) this.flush();
  }

  /** Sends what is pending, takes what the program says to it. */
  private flush(): void {
    if (this.pending.length === 0) return;
    if (this.id === null) this.begin();
    const { pending } = this;
    this.pending = [];
    this.answers.take(this.exchange(pending), pending);
  }

  private exchange(lines: readonly Line[]): readonly string[] {
    const { code, door, bridge, limit_s } = this.parts;
    const marker = `flush ${++this.flushes}`;
    const texts = lines.map((line) => lineText(line, door.beams.length));
    const answer = bridge.exchange(this.id!, `${texts.join('')}${marker}\n`, marker);
    if (answer.told === 'lines') return answer.lines;
    const sent = [...texts.slice(-4).map((line) => line.trimEnd()), marker];
    throw processProblem(code, answer.fault, { door: door.name, time_us: lines.at(-1)!.time_us, sent, limit_s });
  }

  /** A fresh program; it is told what came before, if there was anything, and what it says to that is known. */
  private begin(): void {
    const { id, about } = greet(this.parts, this);
    this.id = id;
    const { code } = this.parts;
    if (JSON.stringify(about) !== JSON.stringify(this.about))
      throw new LogicError(code.name, this.last.time_us, 'it says something else of itself than at its first start');
    const before = this.told();
    for (let i = 0; i < before.length; i += BATCH) this.exchange(before.slice(i, i + BATCH));
  }

  /** All that came before what is pending, ticks included. */
  private told(): Line[] {
    const { pending, about } = this;
    const isNew = pending.filter(({ tick }) => !tick).length;
    const history = (this.history ?? []).slice(0, (this.history?.length ?? 0) - isNew);
    return history.flatMap((line, i) => {
      // What is pending may begin with ticks that come after the last of them.
      const next_us = (history[i + 1] ?? pending[0]!).time_us;
      const lines = [line];
      const end_us = Math.min(next_us - 1, line.time_us + about.longest_timeout_us);
      if (about.tick_us > 0)
        for (let time_us = line.time_us + about.tick_us; time_us <= end_us; time_us += about.tick_us)
          lines.push({ ...line, time_us, tick: true });
      return lines;
    });
  }
}
