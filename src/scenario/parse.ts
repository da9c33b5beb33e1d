/** A scenario's text to a design: the one entry of this folder for the command line, the library and the browser. */
import { cautionsOf, crossCheck } from './checks/all.js';
import type { Outline } from './checks/outline.js';
import { withHousehold } from './household.js';
import { placesOfKeys } from './keys.js';
import type { ReadFile } from './files.js';
import type { Finding, Issue } from './issue.js';
import { showPath, valueAt } from './key-path.js';
import { type Profiled, withProfiles } from './profiles.js';
import { resolve } from './resolve.js';
import { salvage } from './salvage.js';
import { type Design, scenarioSchema } from './schema.js';
import { applySets } from './set.js';
import { checkShape } from './shape.js';
import { type Tables, loadTables } from './tables.js';
import { type YamlSource, readYaml } from './yaml-source.js';

/** More than anybody mends in one go. */
const MAX_ISSUES = 200;

export interface ParseOptions {
  /** `KEY=VALUE` as of `--set`, applied in order to the resolved design. */
  readonly sets?: readonly string[];
  /** How table logics and profiles get their text; without it a scenario that names a file is refused. */
  readonly readFile?: ReadFile;
}

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
  const profiled = withProfiles(source, options.readFile);
  const shape = checkShape(scenarioSchema, profiled.value, placesOfKeys());
  const outline = salvage(scenarioSchema, profiled.value) ?? {};
  const locate = (findings: readonly Finding[]) =>
    findings.filter((finding) => !profiled.hidden(finding)).map((finding) => profiled.locate(finding));
  const own = [
    ...yamlIssues,
    ...profiled.issues,
    ...profiled.findings.map((finding) => profiled.locate(finding)),
    ...locate([...shape.findings, ...crossCheck(outline)]),
  ];
  if (shape.data === null || own.length > 0) {
    const tables = loadTables(outline, options.readFile);
    return {
      design: null,
      issues: inOrder([...own, ...locate(tables.findings), ...tables.issues], file),
      cautions: inOrder(locate([...cautionsOf(outline), ...tables.cautions]), file),
    };
  }
  return finish(shape.data, outline, source, profiled, options);
}

/** The way of a scenario that is right by itself: resolve, set, add the tables. */
function finish(
  data: Parameters<typeof resolve>[0],
  outline: Outline,
  source: YamlSource,
  profiled: Profiled,
  { sets = [], readFile }: ParseOptions,
): ParsedScenario {
  const { file } = source;
  const written = loadTables(outline, readFile);
  const resolved = resolve(data, written.names);
  const set = applySets(resolved, sets);
  // A set may have named another table.
  const tables = sets.length > 0 && set.design ? loadTables(set.design as Outline, readFile) : written;
  const issues = [...set.issues, ...locateTables(tables, source), ...tables.issues];
  const cautions =
    sets.length > 0 && set.design
      ? [...cautionsOf(set.design as Outline), ...tables.cautions].map((finding) => unplaced(set.design, finding))
      : [...cautionsOf(outline), ...tables.cautions].map((finding) => profiled.locate(finding));
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
function locateTables({ findings }: Tables, source: YamlSource): Issue[] {
  return findings.map((finding) =>
    valueAt(source.value, finding.path) === undefined ? unplaced(source.value, finding) : locateIn(source, finding),
  );
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
  if (sorted.length <= MAX_ISSUES) return sorted;
  const rest: Issue = { place: null, path: '', problem: { code: 'and_more', count: sorted.length - MAX_ISSUES } };
  return [...sorted.slice(0, MAX_ISSUES), rest];
}
