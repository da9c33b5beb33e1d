/** A study's file and the scenario it names, read into a plan. */
import { dirname, isAbsolute, join } from 'node:path';
import { digestOf as digestOfCode } from '../../plugins/digest.js';
import type { CodeJob } from '../../plugins/code.js';
import type { Finding, Issue } from '../../scenario/issue.js';
import { showPath } from '../../scenario/key-path.js';
import type { Design } from '../../scenario/schema.js';
import { assign } from '../../scenario/set.js';
import { checkShape } from '../../scenario/shape.js';
import { type YamlSource, readYaml } from '../../scenario/yaml-source.js';
import { keyOfSet } from '../../study/plan/faults.js';
import { type StudyPlan, planStudy } from '../../study/plan/plan.js';
import { type Study, studySchema } from '../../study/plan/schema.js';
import { type StudyRequest, requestOf } from '../../study/request.js';
import { readText } from '../files.js';
import { type LogicOptions, codeOf, givenLogics } from '../logic-options.js';
import { issuesProblem } from '../issues-problem.js';
import { UserProblem, pathText } from '../problem.js';
import { loadScenario } from '../scenario-file.js';
import { isPage, readScenarioText } from '../scenario-text.js';

export interface LoadedStudy {
  readonly plan: StudyPlan;
  readonly request: StudyRequest;
  /** Code of the user's own, if there is any. */
  readonly code: CodeJob | null;
  readonly cautions: readonly Issue[];
}

/** @throws {UserProblem} with all that is wrong */
export function loadStudy(file: string, options: LogicOptions): LoadedStudy {
  if (isPage(file))
    throw new UserProblem(
      `${pathText(file)}: expected a study in YAML, found a web page`,
      "a study's file may name the report of a run as its scenario",
    );
  const { source, issues } = readYaml(readText(file, 'a study in YAML'), file);
  if (!source || issues.length > 0) throw issuesProblem(file, issues);
  const shape = checkShape(studySchema, source.value);
  if (shape.data === null) throw refused(source, shape.findings);
  const study = shape.data;
  if (isAbsolute(study.scenario))
    throw refused(source, [
      {
        path: ['scenario'],
        at: 'value',
        problem: { code: 'other', message: 'the name must not begin at the root of the disk' },
      },
    ]);
  const given = givenLogics(options);
  const scenarioFile = join(dirname(file), study.scenario);
  const { design: written, cautions } = loadScenario(scenarioFile, [], given);
  const code = codeOf(written, given);
  const base = withSets(study, source, known(written, code));
  const tables: Record<string, string> = {};
  const read = readScenarioText(scenarioFile).readFile;
  const { plan, issues: faults } = planStudy(study, base, (name, what) => {
    const text = read(name, what);
    if (typeof text === 'string' && what === 'table') tables[name] = text;
    return text;
  });
  if (plan === null) throw refused(source, faults);
  const codes = Object.fromEntries((code?.codes ?? []).map((one) => [one.name, digestOfCode(one) ?? null]));
  return { plan, request: requestOf(study, base, tables, codes), code, cautions };
}

/** The design says which code it is: cells follow from it. */
function known(design: Design, code: CodeJob | null): Design {
  if (code === null) return design;
  const logics = design.logics.map((logic) => {
    const own = code.codes.find(({ name }) => name === logic.name);
    const sha256 = own && digestOfCode(own);
    return (logic.use === 'module' || logic.use === 'process') && sha256 ? { ...logic, sha256 } : logic;
  });
  return { ...design, logics };
}

function withSets(study: Study, source: YamlSource, design: Design): Design {
  const sets = Object.entries(study.set).map(([path, value]) => ({ path, value }));
  if (study.hours !== undefined) sets.push({ path: 'hours', value: study.hours });
  const { design: changed, issues } = assign(design, sets);
  if (changed) return changed;
  throw issuesProblem(
    source.file,
    issues.map((issue) => {
      const key = keyOfSet(issue);
      return { ...issue, place: source.place(['set', key], 'value'), path: `set ${key}` };
    }),
  );
}

function refused(source: YamlSource, faults: readonly (Finding | Issue)[]): Error {
  return issuesProblem(
    source.file,
    faults.map((fault) =>
      'place' in fault
        ? fault
        : {
            place: source.place(fault.path, fault.at),
            path: 'of' in fault ? String(fault.of) : showPath(source.value, fault.path),
            problem: fault.problem,
          },
    ),
  );
}
