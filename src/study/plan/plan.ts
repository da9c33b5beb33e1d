/** A study worked out: which designs it compares, which of them met the same crowds, how many replicates they get. */
import { createHash } from 'node:crypto';
import { NO_FILES, type ReadFile } from '../../scenario/files.js';
import { serialiseDesign } from '../../scenario/design-json.js';
import { withHousehold } from '../../scenario/household.js';
import type { Outline } from '../../scenario/checks/outline.js';
import type { Finding, Issue } from '../../scenario/issue.js';
import type { Design } from '../../scenario/schema.js';
import { type Assignment, assign } from '../../scenario/set.js';
import { loadTables } from '../../scenario/tables.js';
import { crowdKey } from '../../simulate/plan.js';
import { Stopping } from '../judge/stopping.js';
import { type Measure, type MeasureNames, measureOf } from '../judge/measure.js';
import type { CellShape } from '../cells/cell.js';
import { needsLesson } from '../cells/do-cell.js';
import { type Condition, conditionOf } from './condition.js';
import { type Factor, factorOf } from './factor.js';
import { conditionFault, fault, metricFaults, namesTwice, placed, tooMany, unique } from './faults.js';
import { MOST_DESIGNS, type Study } from './schema.js';

/** What is known of a design without keeping it whole: ten thousand of them would not fit into memory. */
export interface PlannedDesign {
  /** From 1, the last factor varying fastest; combinations left out have none. */
  readonly number: number;
  /** Level of each factor, from 0. */
  readonly levels: readonly number[];
  /** Digest of all that its cells follow from, so that they are known again in a larger study. */
  readonly key: string;
  /** Designs of one number meet the same crowds. */
  readonly crowd: number;
  /** What its doors, rooms, logics and ledgers are called; one object for all designs that agree. */
  readonly names: MeasureNames;
  readonly shape: CellShape;
  /** Whether its logics or ledgers learn something before the first replicate. */
  readonly learns: boolean;
}

export interface StudyPlan {
  readonly study: Study;
  readonly scenario: Design;
  readonly factors: readonly Factor[];
  /** Per factor: whether it changes the crowd itself. */
  readonly unpaired: readonly boolean[];
  readonly designs: readonly PlannedDesign[];
  readonly left_out: number;
  readonly stopping: Stopping;
  /** The design with its keys set. */
  design(planned: PlannedDesign): Design;
  /** What its designs are ranked by, and what is looked at to stop. */
  measures(planned: PlannedDesign): { readonly rank: Measure; readonly stop: Measure };
}

const MOST_FAULTS = 20;

/**
 * @param scenario the scenario's design, with what the study sets for all designs
 * @param readFile of the scenario's folder: a variant may name another table
 * @returns the plan, or all that is wrong, at its place in the study
 */
export function planStudy(
  study: Study,
  scenario: Design,
  readFile: ReadFile | undefined,
): { plan: StudyPlan; issues: readonly [] } | { plan: null; issues: readonly (Finding | Issue)[] } {
  const refuse = (issues: readonly (Finding | Issue)[]) => ({ plan: null, issues }) as const;
  const made = study.factors.map(factorOf);
  const faults: Finding[] = made.flatMap((one) => (Array.isArray(one) ? one : []));
  if (faults.length > 0) return refuse(faults);
  const factors = made as Factor[];
  const conditions = study.where.map((text, w): Condition | Finding => {
    try {
      return conditionOf(text);
    } catch (error) {
      return conditionFault(['where', w], error);
    }
  });
  const named = [...namesTwice(factors), ...conditions.filter((one): one is Finding => 'problem' in one)];
  const combinations = factors.reduce((all, { levels }) => all * levels.length, 1);
  if (combinations > MOST_DESIGNS * 10)
    named.push(tooMany(`${combinations} combinations; at most ${MOST_DESIGNS * 10} are gone through`));
  if (named.length > 0) return refuse(named);

  const make = (levels: readonly number[]): ReturnType<typeof changed> =>
    changed(
      scenario,
      levels.flatMap((level, f) => factors[f]!.levels[level]!.sets),
      readFile,
    );
  const designs: PlannedDesign[] = [];
  const crowds = new Map<string, number>();
  const allNames = new Map<string, MeasureNames>();
  const problems: (Finding | Issue)[] = [];
  let left_out = 0;
  for (let c = 0; c < combinations && problems.length < MOST_FAULTS; c++) {
    const levels = levelsOf(c, factors);
    const { design, issues } = make(levels);
    if (design === null) {
      // A combination that can't be built may be one that is left out anyway.
      if (leftOut(conditions as Condition[], scenario, valuesOf(factors, levels))) left_out++;
      else problems.push(...placed(issues, factors, levels, problems));
      continue;
    }
    try {
      if (!(conditions as Condition[]).every((one) => one.holds(design, valuesOf(factors, levels)))) {
        left_out++;
        continue;
      }
    } catch (error) {
      return refuse([conditionFault(['where'], error)]);
    }
    const crowd = crowdKey(design);
    if (!crowds.has(crowd)) crowds.set(crowd, crowds.size + 1);
    const own = namesOf(design);
    const key = JSON.stringify(own);
    if (!allNames.has(key)) {
      allNames.set(key, own);
      problems.push(...metricFaults(study, own));
    }
    const names = allNames.get(key)!;
    designs.push({
      number: designs.length + 1,
      levels,
      key: keyOf(design),
      crowd: crowds.get(crowd)!,
      names,
      shape: {
        doors: names.doors.length,
        rooms: names.rooms.length,
        logics: names.logics.length,
        ledgers: names.ledgers.length,
      },
      learns: needsLesson(design),
    });
    if (designs.length > MOST_DESIGNS) return refuse([tooMany(`more than ${MOST_DESIGNS} designs`)]);
  }
  if (problems.length > 0) return refuse(unique(problems));
  if (designs.length === 0)
    return refuse([fault(['where'], `none of the ${combinations} combinations meets all conditions`)]);

  const design = rememberSome((planned) => make(planned.levels).design!);
  return {
    plan: {
      study,
      scenario,
      factors,
      unpaired: factors.map((factor, f) => factor.levels.length > 1 && crowdsDiffer(f, designs)),
      designs,
      left_out,
      stopping: new Stopping(study.replicates),
      design,
      measures: measuresOf(study),
    },
    issues: [],
  };
}

/** The scenario with keys changed, its tables read: one design. */
function changed(
  scenario: Design,
  sets: readonly Assignment[],
  readFile: ReadFile | undefined,
): { design: Design | null; issues: readonly Issue[] } {
  const { design, issues } = assign(scenario, sets);
  if (design === null) return { design, issues };
  const known = (file: string, what: 'table' | 'profile') =>
    (Object.hasOwn(design.tables, file) ? design.tables[file] : readFile?.(file, what)) ?? NO_FILES;
  const tables = loadTables(design as Outline, known);
  const wrong = [
    ...tables.issues,
    ...tables.findings.map(({ path, problem }): Issue => ({ place: null, path: path.join('.'), problem })),
  ];
  if (wrong.length > 0) return { design: null, issues: wrong };
  return { design: { ...withHousehold(design), tables: tables.texts }, issues: [] };
}

/** Cells follow from all of a design but from its name, how many replicates there are and what is good enough. */
function keyOf({ title: _title, prepared_by: _by, ...design }: Design): string {
  const text = serialiseDesign({ ...design, name: 'study', replicates: 1, targets: [] });
  return createHash('sha256').update(text).digest('hex').slice(0, 24);
}

/** Whether a condition on the factors alone leaves a combination out; what else it names is as in the scenario. */
function leftOut(conditions: readonly Condition[], scenario: Design, values: Map<string, number | string>): boolean {
  return conditions.some((one) => {
    try {
      return !one.holds(scenario, values);
    } catch {
      return false;
    }
  });
}

/** Level of each factor in the c-th combination, the last one varying fastest. */
function levelsOf(c: number, factors: readonly Factor[]): number[] {
  const levels: number[] = [];
  for (let f = factors.length - 1, rest = c; f >= 0; f--) {
    const { length } = factors[f]!.levels;
    levels[f] = rest % length;
    rest = Math.floor(rest / length);
  }
  return levels;
}

function valuesOf(factors: readonly Factor[], levels: readonly number[]): Map<string, number | string> {
  return new Map(
    factors.map(({ name, levels: all }, f) => {
      const { value, label } = all[levels[f]!]!;
      return [name, value ?? label];
    }),
  );
}

/** Whether designs that differ in one factor alone met different crowds. */
function crowdsDiffer(f: number, designs: readonly PlannedDesign[]): boolean {
  const seen = new Map<string, number>();
  return designs.some(({ levels, crowd }) => {
    const others = levels.filter((_, i) => i !== f).join();
    const before = seen.get(others);
    if (before === undefined) seen.set(others, crowd);
    return before !== undefined && before !== crowd;
  });
}

function namesOf(design: Design): MeasureNames {
  return {
    doors: design.doors.map(({ name }) => name),
    rooms: design.rooms.map(({ name }) => name),
    logics: design.logics.map(({ name }) => name),
    ledgers: design.ledgers.map(({ name }) => name),
    hours: design.hours,
  };
}

/** Designs that were made last: a few replicates of one are handed out at a time. */
function rememberSome(make: (planned: PlannedDesign) => Design): (planned: PlannedDesign) => Design {
  const known = new Map<number, Design>();
  return (planned) => {
    const design = known.get(planned.number) ?? make(planned);
    if (!known.has(planned.number) && known.size >= 16) known.delete(known.keys().next().value!);
    known.set(planned.number, design);
    return design;
  };
}

function measuresOf({ rank_by, replicates }: Study): StudyPlan['measures'] {
  const stopBy = typeof replicates === 'object' ? replicates.until : rank_by;
  const known = new Map<MeasureNames, { rank: Measure; stop: Measure }>();
  return ({ names }) => {
    let found = known.get(names);
    if (!found) {
      found = { rank: measureOf(rank_by, names) as Measure, stop: measureOf(stopBy, names) as Measure };
      known.set(names, found);
    }
    return found;
  };
}
