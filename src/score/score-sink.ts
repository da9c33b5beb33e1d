/** Where verdicts go. */
import type { Visit } from '../agents/visit.js';
import type { Verdict } from './match.js';

export type Sign = 1 | -1;

/** Takes what a door's scorer finds, in order of time. */
export interface ScoreSink {
  /** A visit has been judged. The verdict is used again for the next one: copy what you keep. */
  visit(visit: Visit, verdict: Readonly<Verdict>): void;
  /** A tally while nobody was there; `sign` is +1 forward, −1 backward. */
  nobody(time_us: number, sign: Sign): void;
}
