/** What a program says to the lines it was sent, taken instant by instant and believed in nothing. */
import { TALLY_LIMIT, TallyMeter } from '../counter/host-check.js';
import type { HostHooks } from '../counter/host.js';
import { levelsOf } from '../counter/levels.js';
import type { Direction, Readings } from '../counter/logic.js';
import type { CodeProblem } from './code-problem.js';
import type { ProcessParts } from './greet.js';
import { badAnswer } from './process-words.js';
import { lineText, programSaid } from './protocol.js';

/** A line that a program is sent. */
export interface Line {
  readonly time_us: number;
  readonly mask: number;
  readonly readings: Readings | undefined;
  /** Nothing has changed: time goes on. */
  readonly tick: boolean;
}

export class ProgramAnswers {
  private readonly meter = new TallyMeter();

  /** @param label of the state it is in; empty while it tells none */
  constructor(
    private readonly parts: ProcessParts,
    private readonly hooks: HostHooks,
    public label: string,
  ) {}

  /** Tells its tallies and steps. @throws {CodeProblem} when `answer` is none to `sent` */
  take(answer: readonly string[], sent: readonly Line[]): void {
    const levels = this.parts.door.beams.length;
    let l = 0;
    for (let i = 0; i < sent.length; i++) {
      const { time_us, mask, tick } = sent[i]!;
      const bad = (what: string, line: number): CodeProblem =>
        this.bad(what, sent.slice(0, i + 1), answer.slice(0, line));
      if (!tick) this.meter.input();
      const tallies: Direction[] = [];
      for (; l < answer.length; l++) {
        const one = programSaid(answer[l]!);
        if (typeof one === 'string') throw bad(one, l + 1);
        if (one.time_us !== time_us) break;
        if (one.what === 'state') this.label = one.label;
        else tallies.push(one.direction);
      }
      const fault = tallies.length > 0 ? this.faultOf(tallies.length) : null;
      if (fault !== null) throw bad(fault, l);
      for (const direction of tallies) this.hooks.onTally(time_us, direction);
      this.hooks.trace?.({ time_us, levels: levelsOf(mask, levels), label: this.label, tallies, wake: tick });
    }
    const disorder = 'a line has a time that was not sent since the last flush, or that comes before the one above';
    if (l < answer.length) throw this.bad(disorder, sent, answer.slice(0, l + 1));
  }

  private faultOf(tallies: number): string | null {
    if (tallies > TALLY_LIMIT) return `at most ${TALLY_LIMIT} tallies at one instant, got ${tallies}`;
    return this.meter.tallies(tallies);
  }

  /** The last line of the answer is to blame. */
  private bad(what: string, sent: readonly Line[], answer: readonly string[]): CodeProblem {
    const { code, door, limit_s } = this.parts;
    const lines = sent.slice(-4).map((line) => lineText(line, door.beams.length).trimEnd());
    const moment = { door: door.name, time_us: sent.at(-1)!.time_us, sent: lines, limit_s };
    return badAnswer(code, what, moment, answer.slice(-4));
  }
}
