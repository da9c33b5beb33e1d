/** A study worked out: which designs it compares, which of them met the same crowds, how many replicates they get. */
import { createHash } from 'node:crypto';
import { NO_FILES, type ReadFile } from '../../scenario/files.js';
import { serialiseDesign } from '../../scenario/design-json.js';
import { withHousehold } from '../../scenario/household.js';
import type { Outline } from '../../scenario/checks/outline.js';
import type { Finding, Issue } from '../../scenario/issue.js';
import type { Design } from '../../scenario/schema.js';
import { assign } from '../../scenario/set.js';
import type { Assignment } from '../../scenario/set-pair.js';
import { loadTables } from '../../scenario/tables.js';
import { crowdKey } from '../../simulate/plan.js';
import { Stopping } from '../judge/stopping.js';
import { type Measure, type MeasureNames, measureOf } from '../judge/measure.js';
import type { CellShape } from '../cells/cell.js';
import { needsLesson } from '../cells/do-cell.js';
import { type Condition, conditionOf } from './condition.js';
import { type Factor, factorOf } from './factor.js';
import { conditionFault, fault, metricFaults, nameFaults, placed, tooMany, unique } from './faults.js';
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
  const grid = gridOf(study);
  if (Array.isArray(grid)) return refuse(grid);
  const { factors } = grid;
  const make = (levels: readonly number[]): Changed =>
    changed(
      scenario,
      levels.flatMap((level, f) => factors[f]!.levels[level]!.sets),
      readFile,
    );
  const found = designsIn(grid, study, scenario, make);
  if (Array.isArray(found)) return refuse(found);
  const { designs, left_out } = found;
  return {
    plan: {
      study,
      scenario,
      factors,
      unpaired: factors.map((factor, f) => factor.levels.length > 1 && crowdsDiffer(f, designs)),
      designs,
      left_out,
      stopping: new Stopping(study.replicates),
      design: rememberSome((planned) => make(planned.levels).design!),
      measures: measuresOf(study),
    },
    issues: [],
  };
}

/** All combinations of levels, and which of them are wanted. */
interface Grid {
  readonly factors: readonly Factor[];
  readonly conditions: readonly Condition[];
  readonly combinations: number;
}

/** @returns the grid, or what is wrong with factors and conditions by themselves */
function gridOf(study: Study): Grid | Finding[] {
  const factors: Factor[] = [];
  const wrong: Finding[] = [];
  for (const made of study.factors.map(factorOf)) {
    if (Array.isArray(made)) wrong.push(...made);
    else factors.push(made);
  }
  // The others' faults would rest on factors that are not there.
  if (wrong.length > 0) return wrong;
  wrong.push(...nameFaults(factors));
  const conditions = study.where.flatMap((text, w) => {
    try {
      return conditionOf(text);
    } catch (error) {
      wrong.push(conditionFault(['where', w], error));
      return [];
    }
  });
  const combinations = factors.reduce((all, { levels }) => all * levels.length, 1);
  if (combinations > MOST_DESIGNS * 10)
    wrong.push(tooMany(`${combinations} combinations; at most ${MOST_DESIGNS * 10} are gone through`));
  return wrong.length > 0 ? wrong : { factors, conditions, combinations };
}

/** Goes through all combinations. @returns those that are designs, or what is wrong with some */
function designsIn(
  { factors, conditions, combinations }: Grid,
  study: Study,
  scenario: Design,
  make: (levels: readonly number[]) => Changed,
): { designs: readonly PlannedDesign[]; left_out: number } | (Finding | Issue)[] {
  const numbering = new Numbering(study);
  const problems: (Finding | Issue)[] = [];
  let left_out = 0;
  for (let c = 0; c < combinations && problems.length < MOST_FAULTS; c++) {
    const levels = levelsOf(c, factors);
    const values = valuesOf(factors, levels);
    const { design, issues } = make(levels);
    if (design === null) {
      // A combination that can't be built may be one that is left out anyway.
      if (leftOut(conditions, scenario, values)) left_out++;
      else problems.push(...placed(issues, factors, levels, problems));
      continue;
    }
    try {
      if (!conditions.every((one) => one.holds(design, values))) {
        left_out++;
        continue;
      }
    } catch (error) {
      return [conditionFault(['where'], error)];
    }
    problems.push(...numbering.add(design, levels));
    if (numbering.designs.length > MOST_DESIGNS) return [tooMany(`more than ${MOST_DESIGNS} designs`)];
  }
  if (problems.length > 0) return unique(problems);
  if (numbering.designs.length === 0)
    return [fault(['where'], `none of the ${combinations} combinations meets all conditions`)];
  return { designs: numbering.designs, left_out };
}

/** Designs one after another; what several of them share, a crowd or a list of names, is known again. */
class Numbering {
  readonly designs: PlannedDesign[] = [];
  private readonly crowds = new Map<string, number>();
  private readonly names = new Map<string, MeasureNames>();

  constructor(private readonly study: Study) {}

  /** @returns metrics of the study that a design with these names has not, told with the first of them */
  add(design: Design, levels: readonly number[]): Finding[] {
    const crowd = crowdKey(design);
    if (!this.crowds.has(crowd)) this.crowds.set(crowd, this.crowds.size + 1);
    const own = namesOf(design);
    const key = JSON.stringify(own);
    const known = this.names.get(key);
    const names = known ?? own;
    this.names.set(key, names);
    this.designs.push({
      number: this.designs.length + 1,
      levels,
      key: keyOf(design),
      crowd: this.crowds.get(crowd)!,
      names,
      shape: {
        doors: names.doors.length,
        rooms: names.rooms.length,
        logics: names.logics.length,
        ledgers: names.ledgers.length,
      },
      learns: needsLesson(design),
    });
    return known ? [] : metricFaults(this.study, names);
  }
}

interface Changed {
  readonly design: Design | null;
  readonly issues: readonly Issue[];
}

/** The scenario with keys changed, its tables read: one design. */
function changed(scenario: Design, sets: readonly Assignment[], readFile: ReadFile | undefined): Changed {
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
