/** A scenario's text to a design: the one entry of this folder for the command line, the library and the browser. */
import { cautionsOf, crossCheck } from './checks/all.js';
import type { Outline } from './checks/outline.js';
import { withHousehold } from './household.js';
import { placesOfKeys } from './keys.js';
import { NO_FILES, type ReadFile } from './files.js';
import { type Finding, type Issue, firstOf } from './issue.js';
import { isPlainObject, showPath, valueAt } from './key-path.js';
import { withProfiles } from './profiles.js';
import { resolve } from './resolve.js';
import { salvage } from './salvage.js';
import { type Design, type StartedLogic, scenarioSchema, startedSchema } from './schema.js';
import { applySets } from './set.js';
import { checkShape } from './shape.js';
import { loadTables } from './tables.js';
import { type YamlSource, readYaml } from './yaml-source.js';

/** More than anybody mends in one go. */
const MAX_ISSUES = 200;

/** What a scenario's text can't say by itself. */
export interface ParseOptions {
  /** `KEY=VALUE` as of `--set`, applied in order to the resolved design. */
  readonly sets?: readonly string[];
  /** How table logics and profiles get their text; without it a scenario that names a file is refused. */
  readonly readFile?: ReadFile;
  /** Logics in place of the scenario's own; these may be code. */
  readonly logics?: readonly GivenLogic[] | undefined;
}

/** A logic that is named where a run is started. */
export interface GivenLogic {
  /** What names it there, for issues: `--logic my-logic.ts`. */
  readonly option: string;
  readonly logic: StartedLogic;
  /** The text of a table: its file is no matter of the scenario's folder. */
  readonly text?: string;
}

/** A design, or why there is none. */
export interface ParsedScenario {
  /** Null when there are issues. */
  readonly design: Design | null;
  /** All that is wrong, in order of the text. */
  readonly issues: Issue[];
  /** What may well be meant but deserves a word. */
  readonly cautions: Issue[];
}

/**
 * Reads a scenario. Never throws, whatever the text.
 *
 * @param file what issues name as the file
 */
export function parseScenario(text: string, file: string, options: ParseOptions = {}): ParsedScenario {
  const { source, issues: yamlIssues } = readYaml(text, file);
  if (!source) return { design: null, issues: yamlIssues, cautions: [] };
  const { logics } = options;
  const readFile = logics ? readingGiven(logics, options.readFile) : options.readFile;
  const profiled = withProfiles(source, readFile);
  const value = logics ? withLogics(profiled.value, logics) : profiled.value;
  const schema = logics ? startedSchema : scenarioSchema;
  const shape = checkShape(schema, value, placesOfKeys());
  const outline = (logics ? salvage(startedSchema, value) : salvage(scenarioSchema, value)) ?? {};
  const place: Locate = (finding) => locateGiven(finding, logics) ?? profiled.locate(finding);
  const locate = (findings: readonly Finding[]) =>
    findings.filter((finding) => !profiled.hidden(finding)).map((finding) => place(finding));
  const own = [
    ...yamlIssues,
    ...profiled.issues,
    ...profiled.findings.map((finding) => profiled.locate(finding)),
    ...locate([...shape.findings, ...crossCheck(outline)]),
  ];
  if (shape.data === null || own.length > 0) {
    const tables = loadTables(outline, readFile);
    return {
      design: null,
      issues: inOrder([...own, ...locate(tables.findings), ...tables.issues], file),
      cautions: inOrder(locate([...cautionsOf(outline), ...tables.cautions]), file),
    };
  }
  return finish(shape.data, outline, source, place, { ...options, ...(readFile && { readFile }) });
}

/** The way of a scenario that is right by itself: resolve, set, add the tables. */
function finish(
  data: Parameters<typeof resolve>[0],
  outline: Outline,
  source: YamlSource,
  place: Locate,
  { sets = [], readFile, logics }: ParseOptions,
): ParsedScenario {
  const { file } = source;
  const written = loadTables(outline, readFile);
  const resolved = resolve(data, written.names);
  const set = applySets(resolved, sets);
  // A set may have named another table.
  const tables = sets.length > 0 && set.design ? loadTables(set.design as Outline, readFile) : written;
  const issues = [
    ...set.issues,
    ...(set.design ? codeSet(resolved, set.design) : []),
    ...tables.findings.map((finding) => locateGiven(finding, logics) ?? locateTable(finding, source)),
    ...tables.issues,
  ];
  const cautions =
    sets.length > 0 && set.design
      ? [...cautionsOf(set.design as Outline), ...tables.cautions].map((finding) => unplaced(set.design, finding))
      : [...cautionsOf(outline), ...tables.cautions].map((finding) => place(finding));
  const design = issues.length === 0 && set.design ? { ...withHousehold(set.design), tables: tables.texts } : null;
  return { design, issues: inOrder(issues, file), cautions: inOrder(cautions, file) };
}

function locateIn(source: YamlSource, { path, at, problem }: Finding): Issue {
  return { place: source.place(path, at), path: showPath(source.value, path), problem };
}

function unplaced(root: unknown, { path, problem }: Finding): Issue {
  return { place: null, path: showPath(root, path), problem };
}

/** A table's file that a `--set` named has no place in the scenario's text. */
function locateTable(finding: Finding, source: YamlSource): Issue {
  return valueAt(source.value, finding.path) === undefined
    ? unplaced(source.value, finding)
    : locateIn(source, finding);
}

type Locate = (finding: Finding) => Issue;

function withLogics(value: unknown, logics: readonly GivenLogic[]): unknown {
  return isPlainObject(value) ? { ...value, logics: logics.map(({ logic }) => logic) } : value;
}

/** The texts of given tables first; `--set` may still name one of the scenario's folder. */
function readingGiven(logics: readonly GivenLogic[], readFile: ReadFile | undefined): ReadFile {
  return (name, what) => {
    const given = logics.find(({ logic }) => typeof logic === 'object' && logic.use === 'table' && logic.file === name);
    return (what === 'table' ? given?.text : undefined) ?? readFile?.(name, what) ?? NO_FILES;
  };
}

/** What is wrong with a given logic belongs to its option, and to no place in the scenario. */
function locateGiven(
  { path: [root, index], problem }: Finding,
  logics: readonly GivenLogic[] | undefined,
): Issue | null {
  if (!logics || root !== 'logics') return null;
  return { place: null, path: logics[Number(index)]?.option ?? '--logic', problem };
}

/** `--set` changes what a design says; which code is run it can't say. */
function codeSet(before: Design, after: Design): Issue[] {
  const codes = ({ logics }: Design): string =>
    JSON.stringify(
      logics.flatMap((choice) => {
        if (choice.use === 'module') return [['module', choice.file]];
        return choice.use === 'process' ? [['process', choice.command]] : [];
      }),
    );
  if (codes(before) === codes(after)) return [];
  return [
    {
      place: null,
      path: '--set logics',
      problem: {
        code: 'other',
        message: 'code of your own is not named by --set',
        hint: 'name it with --logic or --logic-process, in place of all logics of the scenario',
      },
    },
  ];
}

/** By place; the scenario's own first, then its tables', last what has none. */
function inOrder(issues: readonly Issue[], file: string): Issue[] {
  const rank = ({ place }: Issue) => (place === null ? 2 : place.file === file ? 0 : 1);
  const sorted = issues.toSorted(
    (a, b) =>
      rank(a) - rank(b) ||
      (a.place?.line ?? 0) - (b.place?.line ?? 0) ||
      (a.place?.column ?? 0) - (b.place?.column ?? 0),
  );
  return firstOf(sorted, MAX_ISSUES);
}
