/** Where a scenario's text comes from: a file of YAML, or the report of a run, which carries it. */
import { dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import { type NoScenario, carriedIn, isWebPage } from '../report/carried/read.js';
import type { Carried } from '../report/carried/schema.js';
import type { ReadFile } from '../scenario/files.js';
import { headOf, readText } from './files.js';
import { UserProblem, pathText } from './problem.js';

/** A report with its pictures. */
const LONGEST_REPORT = 64 * 1_048_576;
/** What is looked at to tell a page from a scenario, bytes. */
const HEAD = 4096;

export interface ScenarioText {
  readonly text: string;
  /** What issues name as the file. */
  readonly file: string;
  /** Texts of the tables and profiles that the scenario names. */
  readonly readFile: ReadFile;
  /** What the report carries; null for a file of YAML. */
  readonly carried: Carried | null;
}

/**
 * @param file YAML, or a report's page
 * @param what it is expected to be, in words
 * @throws {UserProblem} when it can't be read, or is a page without a scenario
 */
export function readScenarioText(file: string, what = 'a scenario in YAML'): ScenarioText {
  const beside = readerBeside(dirname(file));
  if (!isPage(file)) return { text: readText(file, what), file, readFile: beside, carried: null };
  const found = carriedIn(readText(file, 'the report of a run', LONGEST_REPORT));
  if (isMissing(found)) throw new UserProblem(`${pathText(file)}: ${found.fault}`, found.hint);
  const { tables } = found;
  return {
    text: found.scenario,
    file: `${file}: its scenario`,
    readFile: (name, kind) =>
      kind === 'table' && Object.hasOwn(tables, name) ? (tables[name] ?? '') : beside(name, kind),
    carried: found,
  };
}

/** Whether a file is a web page, by how it begins. */
export function isPage(file: string): boolean {
  return isWebPage(headOf(file, HEAD));
}

function isMissing(found: Carried | NoScenario): found is NoScenario {
  return 'fault' in found;
}

const FILES = { table: 'a logic table in YAML', profile: "a sensor's profile in YAML" } as const;

/** Gives the texts of files in a scenario's folder. */
function readerBeside(folder: string): ReadFile {
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
