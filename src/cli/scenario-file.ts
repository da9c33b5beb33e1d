/** A scenario's file and the tables and profiles beside it, read into a design. */
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { formatIssue } from '../scenario/explain.js';
import type { ReadFile } from '../scenario/files.js';
import type { Issue } from '../scenario/issue.js';
import type { GivenLogic } from '../scenario/parse.js';
import { parseScenario } from '../scenario/parse.js';
import { isPlainObject } from '../scenario/key-path.js';
import type { Design } from '../scenario/schema.js';
import { readYaml } from '../scenario/yaml-source.js';
import { readText } from './files.js';
import type { Io } from './io.js';
import { UserProblem, issuesProblem } from './problem.js';

export interface LoadedScenario {
  readonly design: Design;
  readonly cautions: readonly Issue[];
}

/**
 * Reads a scenario.
 *
 * @param sets `KEY=VALUE` texts, applied in order
 * @param earlier problems of the command's own options, told together with the scenario's
 * @param logics named on the command line, in place of the scenario's own
 * @throws {UserProblem} with all that is wrong
 */
export function loadScenario(
  file: string,
  sets: readonly string[] = [],
  earlier: readonly Issue[] = [],
  logics?: readonly GivenLogic[],
): LoadedScenario {
  const text = readText(file, 'a scenario in YAML');
  const { design, issues, cautions } = parseScenario(text, file, {
    sets,
    logics,
    readFile: readerBeside(dirname(file)),
  });
  // A table named on the command line is named from here already.
  const near = new Set(logics?.map(({ logic }) => (typeof logic === 'object' && 'file' in logic ? logic.file : '')));
  const all = [
    ...issues.map((issue) => (near.has(issue.place?.file ?? '') ? issue : fromHere(issue, file))),
    ...earlier,
  ];
  if (design === null || all.length > 0) throw issuesProblem(file, all);
  return { design, cautions };
}

/** Whether a file is a study, not a scenario: it names a scenario, and what varies. */
export function isStudyFile(file: string): boolean {
  const { source } = readYaml(readText(file, 'a scenario or a study in YAML'), file);
  const keys = isPlainObject(source?.value) ? Object.keys(source.value) : [];
  return keys.includes('factors') || (keys.includes('scenario') && !keys.includes('doors'));
}

/** The name of a table or profile is relative to its scenario; where the scenario lies elsewhere, an editor needs the way there. */
function fromHere(issue: Issue, scenario: string): Issue {
  const { place } = issue;
  if (place === null || place.file === scenario || isAbsolute(place.file)) return issue;
  return { ...issue, place: { ...place, file: join(dirname(scenario), place.file) } };
}

const FILES = { table: 'a logic table in YAML', profile: "a sensor's profile in YAML" } as const;

/** Gives the texts of files in a scenario's folder. */
export function readerBeside(folder: string): ReadFile {
  return (name, what) => readBeside(folder, name, FILES[what]);
}

function readBeside(folder: string, name: string, what: string): string | { readonly error: string } {
  if (isAbsolute(name)) return { error: 'the name must not begin at the root of the disk' };
  const way = relative(folder, resolve(folder, name));
  if (way === '..' || way.startsWith(`..${sep}`) || isAbsolute(way))
    return { error: "the name must not lead out of the scenario's folder" };
  try {
    return readText(resolve(folder, name), what);
  } catch (error) {
    if (!(error instanceof UserProblem)) throw error;
    // The place and the name are told by the issue; what is left is the reason and the hint.
    const [reason = '', hint = ''] = error.message.split('\n');
    return { error: reason.slice(reason.indexOf(': ') + 2) + hint.replace('  hint: ', '; ') };
  }
}

/** What may be meant but deserves a word: to stderr, without stopping anything. */
export function printCautions(cautions: readonly Issue[], io: Io): void {
  for (const caution of cautions) io.err(`${io.errPaint.yellow('caution:')} ${formatIssue(caution)}\n`);
}
