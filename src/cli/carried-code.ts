/**
 * Logics of a report that are code. A report carries none: what it says of them is which file or command it was, and
 * its SHA-256. Code is only ever run when whoever starts the run names it, for a report may come from anybody.
 */
import { quote } from '../engine/printable.js';
import type { Code } from '../plugins/code.js';
import { digestOf } from '../plugins/digest.js';
import { type OutsideChoice, outsideLogicSchema } from '../counter/schema.js';
import type { Issue } from '../scenario/issue.js';
import { isPlainObject } from '../scenario/key-path.js';
import type { GivenLogic } from '../scenario/parse.js';
import { readYaml } from '../scenario/yaml-source.js';
import { codeNamed, type GivenLogics } from './logic-options.js';
import { pathText } from './problem.js';
import type { ScenarioText } from './scenario-text.js';

export interface LogicsToRun {
  /** In place of the scenario's own; undefined to take those. */
  readonly logics: readonly GivenLogic[] | undefined;
  readonly cautions: readonly Issue[];
}

/**
 * The logics a scenario is run with. Where a report's logics are code and just this code is named, its own logics run,
 * code and others in their order; whatever else is named takes their place, as ever.
 */
export function logicsToRun({ text, file, carried }: ScenarioText, given: GivenLogics): LogicsToRun {
  const named: LogicsToRun = { logics: given.logics, cautions: [] };
  if (carried === null) return named;
  const written = writtenLogics(text, file);
  const codes = written.flatMap((logic) => outsideLogicSchema.safeParse(logic).data ?? []);
  if (codes.length === 0) return named;
  const others = (given.logics?.length ?? 0) - given.codes.length;
  const pairs = codes.map((choice) => ({ choice, code: codeNamed(choice, given.codes) }));
  const meant = others === 0 && codes.length === given.codes.length && pairs.every(({ code }) => code !== undefined);
  if (given.logics !== undefined && !meant) return named;
  const changed = new Map<string | undefined, Issue>(
    pairs.flatMap(({ choice, code }) => {
      const issue = code && difference(choice, code);
      return issue ? [[choice.name, issue]] : [];
    }),
  );
  return {
    logics: written.map((logic) => ({ option: `${file}: logics`, logic: fresh(logic, changed) })),
    cautions: [...changed.values()],
  };
}

function writtenLogics(text: string, file: string): GivenLogic['logic'][] {
  const { source } = readYaml(text, file);
  const { logics } = isPlainObject(source?.value) ? source.value : {};
  // The check of the scenario's shape says what is no logic.
  return Array.isArray(logics) ? (logics as GivenLogic['logic'][]) : [];
}

/** A word where the code isn't what the report was made with. */
function difference({ name, sha256 }: OutsideChoice, code: Omit<Code, 'name'>): Issue | undefined {
  const own = digestOf({ ...code, name } as Code);
  if (sha256 === undefined || own === sha256) return undefined;
  const message = `${pathText(code.shown)} is not the code of the logic ${quote(name ?? '')} that the report was made with`;
  const hint = `its SHA-256 is ${own ?? 'unknown'}, not ${sha256}: its counts may differ`;
  return { place: null, path: '', problem: { code: 'other', message, hint } };
}

/** What was recorded of other code doesn't hold for this one. */
function fresh(logic: GivenLogic['logic'], changed: ReadonlyMap<string | undefined, Issue>): GivenLogic['logic'] {
  if (!isPlainObject(logic) || !changed.has(logic.name as string | undefined)) return logic;
  const { sha256: _sha256, defeated_by: _defeated, ...rest } = logic as Record<string, unknown>;
  return rest as unknown as GivenLogic['logic'];
}
