/**
 * A study as plain data: all that its cells follow from, and nothing of where it came from. It is kept in the study's folder
 * and sent to machines that join; either way it is checked as if a stranger had written it.
 */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import { designFromJson, serialiseDesign } from '../scenario/design-json.js';
import { formatIssue } from '../scenario/explain.js';
import type { ReadFile } from '../scenario/files.js';
import type { Design } from '../scenario/schema.js';
import { VERSION } from '../simulate/version.js';
import { type StudyPlan, planStudy } from './plan/plan.js';
import { type Study, studySchema } from './plan/schema.js';

export const requestSchema = z.strictObject({
  format: z.literal(1),
  jambeam: z.string().max(40),
  study: studySchema,
  /** The scenario's design as of design.json, with what the study sets for all designs. */
  scenario: z.unknown(),
  /** Texts of tables that variants name, by file name. */
  tables: z.record(z.string().max(500), z.string().max(1_048_576)),
  /** SHA-256 of code of the user's own, by the logic's name; null where there is no file to take it of. */
  codes: z.record(z.string().max(100), z.string().max(64).nullable()),
});
export type StudyRequest = z.infer<typeof requestSchema>;

export function requestOf(
  study: Study,
  scenario: Design,
  tables: Readonly<Record<string, string>>,
  codes: Readonly<Record<string, string | null>>,
): StudyRequest {
  return {
    format: 1,
    jambeam: VERSION,
    study,
    scenario: JSON.parse(serialiseDesign(scenario)) as unknown,
    tables: { ...tables },
    codes: { ...codes },
  };
}

/** Tells studies apart. */
export function digestOf(request: StudyRequest): string {
  return createHash('sha256').update(JSON.stringify(request)).digest('hex').slice(0, 24);
}

/** The plan of a request; in words why there is none. Never throws, whatever it holds. */
export function planOfRequest(request: StudyRequest): StudyPlan | string {
  const { design, issues } = designFromJson(JSON.stringify(request.scenario));
  if (design === null) return issues.map(formatIssue).join('\n');
  const { plan, issues: faults } = planStudy(request.study, design, readOf(request.tables));
  if (plan !== null) return plan;
  return faults
    .map((fault) =>
      formatIssue('place' in fault ? fault : { place: null, path: fault.path.join('.'), problem: fault.problem }),
    )
    .join('\n');
}

export function readOf(tables: Readonly<Record<string, string>>): ReadFile {
  return (file, what) =>
    what === 'table' && Object.hasOwn(tables, file)
      ? tables[file]!
      : { error: 'it is not among the tables of the study' };
}

const MOST_CHANGES = 12;

/** What is different between two requests, a line each: `study.factors.1.to: 1.3, was 1.2`. */
export function changesBetween(before: StudyRequest, now: StudyRequest): string[] {
  const lines: string[] = [];
  const compare = (a: unknown, b: unknown, path: string): void => {
    if (lines.length > MOST_CHANGES || JSON.stringify(a) === JSON.stringify(b)) return;
    if (isTree(a) && isTree(b) && Array.isArray(a) === Array.isArray(b)) {
      for (const key of new Set([...Object.keys(a), ...Object.keys(b)]))
        compare(
          (a as Record<string, unknown>)[key],
          (b as Record<string, unknown>)[key],
          path === '' ? key : `${path}.${key}`,
        );
      return;
    }
    lines.push(`${path}: ${wordOf(b)}, was ${wordOf(a)}`);
  };
  compare(before, now, '');
  return lines.length > MOST_CHANGES ? [...lines.slice(0, MOST_CHANGES), 'and more'] : lines;
}

const isTree = (value: unknown): value is object => typeof value === 'object' && value !== null;

function wordOf(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 59)}…` : text;
}
