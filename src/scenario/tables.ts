/** Table logics of a scenario: their texts fetched, compiled once each, and their beams held against the doors'. */
import { compileTable } from '../counter/table/compile.js';
import { beamsOf, finding } from './checks/outline.js';
import type { Outline } from './checks/outline.js';
import { NO_FILES, type ReadFile } from './files.js';
import type { Finding, Issue } from './issue.js';

export interface Tables {
  /** Texts by file name. */
  readonly texts: Record<string, string>;
  /** What the tables call themselves, by file name. */
  readonly names: ReadonlyMap<string, string>;
  /** Problems inside the tables, at their own places. */
  readonly issues: Issue[];
  /** Problems of the scenario with its tables. */
  readonly findings: Finding[];
  readonly cautions: Finding[];
}

export function loadTables(outline: Outline, readFile: ReadFile | undefined): Tables {
  const tables: Tables = { texts: {}, names: new Map(), issues: [], findings: [], cautions: [] };
  const names = new Map<string, string>();
  for (const [i, logic] of (outline.logics ?? []).entries()) {
    if (typeof logic !== 'object' || logic.use !== 'table' || logic.file === undefined) continue;
    const { file } = logic;
    if (Object.hasOwn(tables.texts, file)) continue;
    const text = readFile?.(file, 'table') ?? NO_FILES;
    if (typeof text !== 'string') {
      const problem = { code: 'unreadable_file', name: file, detail: text.error } as const;
      tables.findings.push(finding(['logics', i, 'file'], problem));
      continue;
    }
    tables.texts[file] = text;
    const { table, issues } = compileTable(text, file);
    tables.issues.push(...issues.map(toIssue));
    if (!table) continue;
    names.set(file, table.name);
    const beams = holdAgainstDoors(outline, logic.name ?? table.name, table.beams);
    tables.findings.push(...beams.findings);
    tables.cautions.push(...beams.cautions);
    const said = new Set(
      table.states.flatMap((state) => state.rules.flatMap((rule) => (rule.kind === 'stay' ? [] : rule.tallies))),
    );
    const ways = (['forward', 'backward'] as const).filter((way) => !said.has(way));
    if (ways.length > 0)
      tables.cautions.push(
        finding(['logics', i, 'file'], { code: 'never_tallies', logic: logic.name ?? table.name, ways }),
      );
  }
  return { ...tables, names };
}

function toIssue(issue: ReturnType<typeof compileTable>['issues'][number]): Issue {
  const { file, line, column, path, message, hint } = issue;
  return { place: { file, line, column }, path, problem: { code: 'table_error', message, hint } };
}

/** A table sees beams in the door's order: their number must agree, their names should. */
function holdAgainstDoors(outline: Outline, logic: string, table: readonly string[]) {
  const findings: Finding[] = [];
  const cautions: Finding[] = [];
  for (const [i, door] of (outline.doors ?? []).entries()) {
    const beams = door && beamsOf(door, ['doors', i]);
    if (!beams) continue;
    const names = beams.map((beam) => beam.name ?? '');
    const path = ['doors', i, 'pair' in door ? 'pair' : 'beams'];
    if (beams.length !== table.length) {
      const problem = { code: 'beam_count', logics: [logic], needs: table.length, found: beams.length } as const;
      findings.push(finding(path, problem, 'key'));
    } else if (names.join('\n') !== table.join('\n'))
      cautions.push(finding(path, { code: 'beam_names', table, door: names }, 'key'));
  }
  return { findings, cautions };
}
