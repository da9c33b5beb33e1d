/** A scenario, and the tables and profiles that belong to it, read into a design. */
import { dirname, isAbsolute, join } from 'node:path';
import { formatIssue } from '../scenario/explain.js';
import type { Issue } from '../scenario/issue.js';
import { parseScenario } from '../scenario/parse.js';
import { isPlainObject } from '../scenario/key-path.js';
import type { Design } from '../scenario/schema.js';
import { readYaml } from '../scenario/yaml-source.js';
import { VERSION } from '../simulate/version.js';
import { logicsToRun } from './carried-code.js';
import type { Io } from './io.js';
import { NONE_GIVEN, type GivenLogics } from './logic-options.js';
import { issuesProblem } from './issues-problem.js';
import { pathText } from './problem.js';
import { type ScenarioText, readScenarioText } from './scenario-text.js';

export interface LoadedScenario {
  readonly design: Design;
  readonly cautions: readonly Issue[];
  /** What it was read from. */
  readonly text: ScenarioText;
}

/**
 * Reads a scenario: the one way for all commands.
 *
 * @param file the scenario in YAML, or the report of a run, which carries its scenario
 * @param sets `KEY=VALUE` texts, applied in order
 * @param given logics named on the command line, in place of the scenario's own
 * @param earlier problems of the command's own options, told together with the scenario's
 * @throws {UserProblem} with all that is wrong
 */
export function loadScenario(
  file: string,
  sets: readonly string[] = [],
  given: GivenLogics = NONE_GIVEN,
  earlier: readonly Issue[] = [],
): LoadedScenario {
  const scenario = readScenarioText(file);
  const { logics, cautions: ofCode } = logicsToRun(scenario, given);
  const { design, issues, cautions } = parseScenario(scenario.text, scenario.file, {
    sets,
    logics,
    readFile: scenario.readFile,
  });
  // A table named on the command line is named from here already.
  const near = new Set(
    given.logics?.map(({ logic }) => (typeof logic === 'object' && 'file' in logic ? logic.file : '')),
  );
  const all = [
    ...issues.map((issue) => (near.has(issue.place?.file ?? '') ? issue : fromHere(issue, file, scenario))),
    ...earlier,
    ...given.issues,
  ];
  if (design === null || all.length > 0) throw issuesProblem(file, all);
  return { design, cautions: [...otherVersion(file, scenario), ...ofCode, ...cautions], text: scenario };
}

/** Whether a file is a study, not a scenario: it names a scenario, and what varies. */
export function isStudyFile(file: string): boolean {
  const { text } = readScenarioText(file, 'a scenario or a study in YAML');
  const { source } = readYaml(text, file);
  const keys = isPlainObject(source?.value) ? Object.keys(source.value) : [];
  return keys.includes('factors') || (keys.includes('scenario') && !keys.includes('doors'));
}

/**
 * The name of a table or profile is relative to its scenario; where the scenario lies elsewhere, an editor needs the way
 * there. A table that a report carries is no file.
 */
function fromHere(issue: Issue, file: string, scenario: ScenarioText): Issue {
  const { place } = issue;
  if (place === null || place.file === scenario.file) return issue;
  if (scenario.carried && Object.hasOwn(scenario.carried.tables, place.file))
    return { ...issue, place: { ...place, file: `${file}: its ${place.file}` } };
  if (isAbsolute(place.file)) return issue;
  return { ...issue, place: { ...place, file: join(dirname(file), place.file) } };
}

/** Numbers are the same from the same version only. */
function otherVersion(file: string, { carried }: ScenarioText): Issue[] {
  if (carried === null || carried.jambeam === VERSION) return [];
  const message = `${pathText(file)} was made by jambeam ${pathText(carried.jambeam)}, and this is ${VERSION}: numbers may differ`;
  return [{ place: null, path: '', problem: { code: 'other', message } }];
}

/** What may be meant but deserves a word: to stderr, without stopping anything. */
export function printCautions(cautions: readonly Issue[], io: Io): void {
  for (const caution of cautions) io.err(`${io.errPaint.yellow('caution:')} ${formatIssue(caution)}\n`);
}
