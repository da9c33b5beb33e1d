/**
 * Drives a program for one door. Lines are gathered and sent together: one exchange tells the program all that happened
 * up to an instant and brings its tallies back.
 *
 * A program keeps its state to itself. So what it was told since it was started is remembered: a snapshot is a piece of
 * that history, and going on from it is a fresh program that is told the same.
 */
import { LogicError, TALLY_LIMIT, TallyMeter } from '../counter/host-check.js';
import type { DoorHost, HostHooks, HostSnapshot } from '../counter/host.js';
import { levelsOf } from '../counter/levels.js';
import type { Direction, Readings } from '../counter/logic.js';
import type { DoorAbout } from '../counter/make-logic.js';
import type { Bridge, Parkable } from './bridge.js';
import type { ProcessCode } from './code.js';
import { CodeProblem, shownText } from './code-problem.js';
import { badAnswer, processProblem } from './process-words.js';
import { type ProgramAbout, READY, helloText, lineText, programAbout, programSaid } from './protocol.js';

/** So many lines at most go together. */
const BATCH = 2000;
/** So many inputs since the program was started are remembered, at most. */
export const MOST_REMEMBERED = 250_000;

export interface ProcessParts {
  readonly code: ProcessCode;
  readonly door: DoorAbout;
  readonly bridge: Bridge;
  readonly limit_s: number;
}

interface Input {
  readonly time_us: number;
  readonly mask: number;
  readonly readings: Readings | undefined;
}

const NO_INPUT: Input = { time_us: Number.MIN_SAFE_INTEGER, mask: 0, readings: undefined };

interface ProcessSnapshot extends HostSnapshot {
  readonly history: readonly Input[];
  /** How much of the history is the snapshot's. */
  readonly length: number;
  /** Up to where ticks had been given. */
  readonly until_us: number;
}

/** Starts the program, exchanges greetings, and gives what it says of itself. @throws {CodeProblem} */
export function greet(
  { code, door, bridge, limit_s }: ProcessParts,
  user: Parkable,
): { id: number; about: ProgramAbout } {
  const id = bridge.start(code.words, user);
  const hello = helloText(door);
  const answer = bridge.exchange(id, hello, READY);
  const moment = { door: door.name, time_us: Number.NaN, sent: hello.trimEnd().split('\n'), limit_s };
  if (answer.told === 'fault') throw processProblem(code, answer.fault, moment);
  const about = programAbout(answer.lines);
  if (typeof about === 'string') throw badAnswer(code, about, moment, [...answer.lines, READY]);
  return { id, about };
}

export class ProcessHost implements DoorHost, Parkable {
  private id: number | null = null;
  private history: Input[] = [];
  /** False once the history has grown too long to be kept. */
  private remembers = true;
  private last = NO_INPUT;
  /** When the last tick was given, or the last input. */
  private until_us = Number.MIN_SAFE_INTEGER;
  private label: string;
  private meter = new TallyMeter();
  /** What has been said and not sent, and the instants of it; which of them are ticks. */
  private lines: string[] = [];
  private said: Input[] = [];
  private ticks: boolean[] = [];
  private flushes = 0;
  /** While a history is told again, what the program says is known. */
  private retelling = false;

  constructor(
    private readonly parts: ProcessParts,
    private readonly about: ProgramAbout,
    private readonly hooks: HostHooks,
    from?: HostSnapshot,
  ) {
    this.label = about.state ?? '';
    if (!from) return;
    const { history, length, until_us, label } = from as ProcessSnapshot;
    this.history = history.slice(0, length);
    this.label = label;
    this.until_us = until_us;
    this.last = this.history.at(-1) ?? this.last;
  }

  inputMask(time_us: number, mask: number, readings?: Readings): void {
    if (!Number.isSafeInteger(time_us) || time_us < this.last.time_us)
      throw new RangeError(`an input at ${time_us} µs cannot follow one at ${this.last.time_us} µs`);
    this.tickUntil(time_us - 1);
    this.meter.input();
    const input = { time_us, mask, readings: this.about.readings ? readings : undefined };
    if (this.history.length >= MOST_REMEMBERED) this.remembers = false;
    if (this.remembers) this.history.push(input);
    else this.history = [];
    this.take(input);
  }

  reset(time_us: number, mask: number): void {
    this.close();
    this.forget();
    this.label = this.about.state ?? '';
    this.meter = new TallyMeter();
    this.history = [];
    this.remembers = true;
    this.last = { time_us, mask: 0, readings: undefined };
    this.until_us = Number.MIN_SAFE_INTEGER;
    if (mask !== 0) this.inputMask(time_us, mask);
  }

  finish(until_us: number): void {
    this.tickUntil(until_us);
    this.flush();
  }

  snapshot(): ProcessSnapshot {
    this.flush();
    const { history, label, until_us, about, last } = this;
    if (!this.remembers)
      throw new CodeProblem(
        `the program ${shownText(this.parts.code.shown)} was told over ${MOST_REMEMBERED} lines at door ${shownText(this.parts.door.name)}: that is too much to go back to`,
        'simulate fewer hours',
      );
    const resting = last.mask === 0 && (about.state === null || about.state === label);
    return { label, resting, history, length: history.length, until_us };
  }

  close(): void {
    if (this.id !== null) this.parts.bridge.end(this.id);
    this.id = null;
  }

  park(): boolean {
    if (!this.remembers) return false;
    this.close();
    return true;
  }

  private take(input: Input): void {
    this.last = input;
    this.until_us = input.time_us;
    this.say(input, false);
  }

  /** Unchanged lines while the program may wait for something. */
  private tickUntil(until_us: number): void {
    const { tick_us, longest_timeout_us } = this.about;
    const { last } = this;
    if (tick_us === 0 || last === NO_INPUT || this.until_us < last.time_us) return;
    const end_us = Math.min(until_us, last.time_us + longest_timeout_us);
    while (this.until_us + tick_us <= end_us) {
      this.until_us += tick_us;
      this.say({ ...last, time_us: this.until_us }, true);
    }
  }

  private say(input: Input, tick: boolean): void {
    const { beams } = this.parts.door;
    const readings = this.about.readings ? (input.readings ?? []) : undefined;
    this.lines.push(lineText(input.time_us, input.mask, beams.length, readings));
    this.said.push(input);
    this.ticks.push(tick);
    if (this.lines.length >= BATCH) this.flush();
  }

  /** Sends what was said, takes what the program says to it. */
  private flush(): void {
    if (this.lines.length === 0) return;
    if (this.id === null) this.begin();
    const marker = `flush ${++this.flushes}`;
    const { code, door, bridge, limit_s } = this.parts;
    const answer = bridge.exchange(this.id!, `${this.lines.join('')}${marker}\n`, marker);
    if (answer.told === 'fault') {
      const sent = [...this.lines.slice(-4).map((line) => line.trimEnd()), marker];
      throw processProblem(code, answer.fault, { door: door.name, time_us: this.said.at(-1)!.time_us, sent, limit_s });
    }
    const { said, ticks } = this;
    this.forget();
    if (!this.retelling) this.hear(answer.lines, said, ticks);
  }

  /** What it said, instant by instant. */
  private hear(lines: readonly string[], said: readonly Input[], ticks: readonly boolean[]): void {
    let l = 0;
    for (let i = 0; i < said.length; i++) {
      const { time_us, mask } = said[i]!;
      const tallies: Direction[] = [];
      for (; l < lines.length; l++) {
        const one = programSaid(lines[l]!);
        if (typeof one === 'string') throw this.bad(one, time_us, lines, l);
        if (one.time_us !== time_us) break;
        if (one.what === 'state') this.label = one.label;
        else tallies.push(one.direction);
      }
      this.check(tallies.length, time_us, lines, l);
      for (const direction of tallies) this.hooks.onTally(time_us, direction);
      this.hooks.trace?.({
        time_us,
        levels: levelsOf(mask, this.parts.door.beams.length),
        label: this.label,
        tallies,
        wake: ticks[i]!,
      });
    }
    if (l < lines.length)
      throw this.bad(
        'a tally has a time that was not sent since the last flush, or that comes before the one above',
        said.at(-1)!.time_us,
        lines,
        l,
      );
  }

  private check(tallies: number, time_us: number, lines: readonly string[], l: number): void {
    if (tallies === 0) return;
    if (tallies > TALLY_LIMIT)
      throw this.bad(`at most ${TALLY_LIMIT} tallies at one instant, got ${tallies}`, time_us, lines, l - 1);
    const flood = this.meter.tallies(tallies);
    if (flood !== null) throw this.bad(flood, time_us, lines, l - 1);
  }

  /** @param l the line that is to blame */
  private bad(what: string, time_us: number, lines: readonly string[], l: number): CodeProblem {
    const { code, door, limit_s } = this.parts;
    const at = this.history.findLastIndex((input) => input.time_us <= time_us);
    const sent = this.history
      .slice(Math.max(0, at - 3), at + 1)
      .map((input) => lineText(input.time_us, input.mask, door.beams.length, input.readings).trimEnd());
    return badAnswer(code, what, { door: door.name, time_us, sent, limit_s }, lines.slice(Math.max(0, l - 3), l + 1));
  }

  /** A fresh program; it is told what came before, if there was anything. */
  private begin(): void {
    const { id, about } = greet(this.parts, this);
    this.id = id;
    if (JSON.stringify(about) !== JSON.stringify(this.about))
      throw new LogicError(
        this.parts.code.name,
        this.last.time_us,
        'the program says something else of itself than when it was first started',
      );
    this.retell();
  }

  private retell(): void {
    const { lines, said, ticks, last, until_us } = this;
    const before = this.history.slice(0, this.history.length - ticks.filter((tick) => !tick).length);
    if (before.length === 0) return;
    this.retelling = true;
    this.forget();
    this.last = NO_INPUT;
    for (const input of before) {
      this.tickUntil(input.time_us - 1);
      this.take(input);
    }
    // What follows may begin with ticks that came after the last of them.
    this.tickUntil(said[0]!.time_us - 1);
    this.flush();
    this.retelling = false;
    Object.assign(this, { lines, said, ticks, last, until_us });
  }

  private forget(): void {
    this.lines = [];
    this.said = [];
    this.ticks = [];
  }
}
