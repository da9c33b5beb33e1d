/** Why a program gave no answer, or a wrong one, in words: what it was sent last, what it said last. */
import { printable } from '../engine/printable.js';
import type { ProcessFault } from './bridge-messages.js';
import type { ProcessCode } from './code.js';
import { CodeProblem, shownText, whenAndWhere } from './code-problem.js';

/** What is known of the moment. */
export interface Moment {
  readonly door: string;
  readonly time_us: number;
  /** The last lines it was sent. */
  readonly sent: readonly string[];
  readonly limit_s: number;
}

const FLUSH =
  'an answer has to leave the program: after `ready` and `flush` it must flush its output (fflush(stdout) in C)';

export function processProblem(code: ProcessCode, fault: ProcessFault, moment: Moment): CodeProblem {
  const [what, hint] = whatHappened(fault, moment.limit_s);
  // What was never started was never told anything.
  return problem(code, what, fault.why === 'not started' ? { ...moment, sent: [] } : moment, fault, hint);
}

/** It answered, but not as the protocol has it. */
export function badAnswer(code: ProcessCode, what: string, moment: Moment, said: readonly string[]): CodeProblem {
  return problem(code, what, moment, { said, complained: [] }, 'the protocol is in docs/own-logic.md');
}

function problem(
  code: ProcessCode,
  what: string,
  { door, time_us, sent }: Moment,
  { said, complained }: Pick<ProcessFault, 'said' | 'complained'>,
  hint: string | undefined,
): CodeProblem {
  const text = [
    `the program ${shownText(code.shown)}: ${what}`,
    `  ${whenAndWhere(time_us, door)}`,
    ...block('the last lines it was sent', '→', sent),
    ...block('the last lines it said', '←', said),
    ...block('the last lines of its standard error', '!', complained),
  ];
  return new CodeProblem(text.join('\n'), hint);
}

function whatHappened({ why, code, exit, signal }: ProcessFault, limit_s: number): [what: string, hint?: string] {
  switch (why) {
    case 'not started':
      return [
        `it can't be started: ${code === 'ENOENT' ? 'there is no such program' : code === 'EACCES' ? 'it is no program that may be run' : `the system says ${code}`}`,
        code === 'ENOENT'
          ? 'a program in this folder is written ./NAME; no shell is behind the command'
          : 'a script is given with what runs it, such as "python3 my-logic.py"; a program needs the right to be run (chmod +x)',
      ];
    case 'ended':
      return signal === undefined
        ? [`it ended with exit code ${exit} instead of answering`]
        : [`it was ended by ${signal} instead of answering`];
    case 'mute':
      return ['it closed its standard output instead of answering'];
    case 'hung':
      return [`it did not answer within ${limit_s} s`, FLUSH];
    case 'flooded':
      return ['it said more than 1 MB without coming to an end', 'it says one line for each tally, and nothing else'];
  }
}

function block(title: string, mark: string, lines: readonly string[]): string[] {
  if (lines.length === 0) return [];
  return [`  ${title}:`, ...lines.slice(-5).map((line) => `    ${mark} ${printable(line, 100)}`)];
}
