/**
 * `--logic` and `--logic-process`: logics named on the command line, in place of the scenario's own. Code is only ever
 * named here: a scenario is data, safe to take from anybody.
 */
import { basename, extname, resolve } from 'node:path';
import type { OutsideChoice } from '../counter/schema.js';
import { quote } from '../engine/printable.js';
import { type Code, type CodeJob, LIMIT_S, codeJob } from '../plugins/code.js';
import { commandWords } from '../plugins/command-words.js';
import type { Issue, Problem } from '../scenario/issue.js';
import type { GivenLogic } from '../scenario/parse.js';
import type { Design } from '../scenario/schema.js';
import { readText } from './files.js';
import { UserProblem, pathText } from './problem.js';
import { typedNumber } from './typed-number.js';

/** One use of an option, in the order they were given. */
export interface LogicArgument {
  readonly option: '--logic' | '--logic-process';
  readonly value: string;
}

export interface LogicOptions {
  /** Both options gather in one list, for their order counts: the first logic gives the headline. */
  readonly logics?: readonly LogicArgument[];
  readonly logicTimeoutS?: string;
}

export interface GivenLogics {
  /** In place of the scenario's; undefined when none were given. */
  readonly logics: GivenLogic[] | undefined;
  /** The code among them, in order; names follow with the design. */
  readonly codes: readonly Omit<Code, 'name'>[];
  readonly limit_s: number;
  readonly issues: readonly Issue[];
}

export const NONE_GIVEN: GivenLogics = { logics: undefined, codes: [], limit_s: LIMIT_S, issues: [] };

const TABLE = new Set(['.yaml', '.yml']);
const MODULE = new Set(['.ts', '.mts', '.cts', '.js', '.mjs', '.cjs']);
const LONGEST_LIMIT_S = 3600;

/** Never throws: what is wrong is told with what is wrong with the scenario. */
export function givenLogics(options: LogicOptions): GivenLogics {
  const issues: Issue[] = [];
  const codes: Omit<Code, 'name'>[] = [];
  const limit_s = limitOf(options, issues);
  const logics = (options.logics ?? []).flatMap(({ option, value }): GivenLogic[] => {
    const path = `${option} ${value}`;
    const refuse = (problem: Problem): [] => {
      issues.push({ place: null, path, problem });
      return [];
    };
    if (option === '--logic-process') {
      const words = commandWords(value);
      if (!words)
        return refuse({
          code: 'other',
          message: 'expected a program and its arguments',
          hint: 'is a quote left open?',
        });
      codes.push({ use: 'process', words, shown: value } as Omit<Code, 'name'>);
      return [{ option: path, logic: { use: 'process', command: value } }];
    }
    const ending = extname(value).toLowerCase();
    if (TABLE.has(ending) || MODULE.has(ending)) {
      const text = textOf(value, TABLE.has(ending) ? 'a logic table in YAML' : 'a module');
      if (typeof text !== 'string') return refuse({ code: 'other', ...text });
      if (TABLE.has(ending)) return [{ option: path, logic: { use: 'table', file: value }, text }];
      codes.push({ use: 'module', path: resolve(value), shown: value } as Omit<Code, 'name'>);
      return [{ option: path, logic: { use: 'module', file: basename(value) } }];
    }
    if (/[./\\]/.test(value))
      return refuse({
        code: 'other',
        message: `expected a built-in logic, a table (.yaml) or a module (.ts, .js, .mjs), found ${quote(value)}`,
        hint: "a program is given with --logic-process 'PROGRAM ARGUMENTS'",
      });
    // Whether there is such a logic the scenario's own check says.
    return [{ option: path, logic: value as GivenLogic['logic'] & string }];
  });
  const given = options.logics !== undefined && options.logics.length > 0;
  // With one of them refused, the rest is still checked; the scenario's own would only confuse.
  return { logics: given && logics.length > 0 ? logics : undefined, codes, limit_s, issues };
}

function limitOf({ logicTimeoutS }: LogicOptions, issues: Issue[]): number {
  if (logicTimeoutS === undefined) return LIMIT_S;
  const limit_s = typedNumber(logicTimeoutS);
  if (limit_s >= 0.1 && limit_s <= LONGEST_LIMIT_S) return limit_s;
  const message = `expected 0.1 to ${LONGEST_LIMIT_S} seconds, found ${quote(logicTimeoutS)}`;
  issues.push({ place: null, path: '--logic-timeout-s', problem: { code: 'other', message } });
  return LIMIT_S;
}

function textOf(file: string, what: string): string | { message: string; hint?: string } {
  try {
    return readText(file, what);
  } catch (error) {
    if (!(error instanceof UserProblem)) throw error;
    const [reason = '', hint] = error.message.split('\n  hint: ');
    const message = reason.replace(`${pathText(file)}: `, '');
    // A name nearby is of use; how to begin a scenario is not.
    return hint?.startsWith('did you mean') ? { message, hint } : { message };
  }
}

/**
 * The code of a design's logics, by its file or command, with the names they have there; null when none is code. Given the
 * design of a finished run, the code must still be what that run was made with.
 *
 * @throws {UserProblem} when the design has code that is not given
 */
export function codeOf(design: Design, { codes, limit_s }: GivenLogics): CodeJob | null {
  const left = [...codes];
  const chosen = design.logics.flatMap((choice): Code[] => {
    if (choice.use !== 'module' && choice.use !== 'process') return [];
    const code = codeNamed(choice, left);
    if (code === undefined) throw codeNotNamed(choice);
    return [{ ...left.splice(left.indexOf(code), 1)[0], name: choice.name, sha256: choice.sha256 } as Code];
  });
  return chosen.length === 0 ? null : codeJob(chosen, limit_s);
}

/** The code named on the command line that a design's logic is, by its file or command. */
export function codeNamed(choice: OutsideChoice, codes: readonly Omit<Code, 'name'>[]): Omit<Code, 'name'> | undefined {
  const known = choice.use === 'module' ? choice.file : choice.command;
  return codes.find(({ use, shown }) => use === choice.use && (use === 'module' ? basename(shown) : shown) === known);
}

function codeNotNamed(choice: OutsideChoice): UserProblem {
  const [option, known] = choice.use === 'module' ? ['--logic', choice.file] : ['--logic-process', choice.command];
  const which = choice.sha256 === undefined ? '' : ` with the SHA-256 ${choice.sha256}`;
  return new UserProblem(
    `the logic ${quote(choice.name ?? '')} is code of your own, ${pathText(known)}${which}, and code is never taken from a file of results`,
    `name it again with ${option}`,
  );
}
