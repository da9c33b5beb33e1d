/** The tables of a study's results: the house, a row for each design and replicate; and its doors, by logic as well. */
import { wrongOf } from '../score/door-counts.js';
import { type RateCounts, pool } from '../score/rates.js';
import type { Cell } from './cells/cell.js';
import { type Measure, measureOf, usualPaths } from './judge/measure.js';
import type { PlannedDesign, StudyPlan } from './plan/plan.js';
import type { StudyDesign } from './summary-schema.js';

export type Value = number | string | null;

export interface Column {
  readonly name: string;
  readonly type: 'whole' | 'number' | 'text';
  /** Absent for names and counts of the design. */
  readonly unit?: string;
  readonly description: string;
}

const FIRST: readonly Column[] = [
  { name: 'design', type: 'whole', description: 'Number of the design, from 1, as in study.json.' },
  {
    name: 'replicate',
    type: 'whole',
    description: 'Replicate, from 1: of one number all paired designs met the same crowd.',
  },
];

type CountColumn = Column & { readonly of: (counts: RateCounts) => number };

const COUNTS: readonly CountColumn[] = [
  count('visits', 'visits', 'Stays of one body in a doorway zone.', ({ total }) => total.visits),
  count('person_crossings', 'crossings', 'Persons who went through.', ({ total }) => total.crossings),
  count('tallies', 'tallies', 'What the logic said, one person at a time.', ({ tallies }) => tallies),
  count('missed', 'crossings', 'Crossings without a tally.', ({ total }) => total.missed),
  count('reversed', 'crossings', 'Crossings tallied the wrong way round.', ({ total }) => total.reversed),
  count('extra', 'tallies', 'Tallies too many for bodies that went through.', ({ total }) => total.extra),
  count(
    'invented',
    'tallies',
    'Tallies for bodies that did not go through, or for nobody.',
    ({ total }) => total.invented,
  ),
  count(
    'net_error',
    'persons',
    'Persons counted minus persons gone through, forward as plus.',
    ({ net_error }) => net_error,
  ),
];

const COUNT_COLUMNS: readonly Column[] = COUNTS.map(({ name, type, unit, description }) => ({
  name,
  type,
  unit: unit!,
  description,
}));

const EFFORT: readonly Column[] = [
  { name: 'holes', type: 'whole', unit: 'holes', description: 'Holes that the design takes, drilled through walls.' },
  { name: 'cable_m', type: 'number', unit: 'm', description: 'Its cable; empty without a plan of the house.' },
  { name: 'cost', type: 'number', unit: 'currency', description: 'Parts and work, in the currency of the scenario.' },
];

function count(name: string, unit: string, description: string, of: CountColumn['of']): CountColumn {
  return { name, type: 'whole', unit, description, of };
}

/** A table of results: its columns, and the rows of a cell in it. */
export interface ResultTable {
  readonly columns: readonly Column[];
  rows(planned: PlannedDesign, replicate: number, cell: Cell, effort: StudyDesign['effort']): Value[][];
}

/** The house, under the first logic and ledger. */
export function houseTable(plan: StudyPlan): ResultTable {
  const hasRooms = plan.designs.some(({ names }) => names.rooms.length > 0);
  const asked = [...new Set([...usualPaths(hasRooms), plan.study.rank_by])];
  const known = new Map<object, readonly (Measure | null)[]>();
  const measures = ({ names }: PlannedDesign): readonly (Measure | null)[] => {
    let found = known.get(names);
    if (!found) {
      found = asked.map((path) => {
        const measure = measureOf(path, names);
        return typeof measure === 'string' ? null : measure;
      });
      known.set(names, found);
    }
    return found;
  };
  const units = asked.map((_, i) =>
    plan.designs.map((planned) => measures(planned)[i]?.unit).find((unit) => unit !== undefined),
  );
  return {
    columns: [
      ...FIRST,
      ...factorColumns(plan),
      ...COUNT_COLUMNS,
      ...asked.map((name, i): Column => {
        return {
          name,
          type: 'number',
          unit: units[i]!,
          description: 'As in metrics.json, of this replicate alone; empty where there is nothing to divide by.',
        };
      }),
      ...EFFORT,
    ],
    rows(planned, replicate, cell, effort) {
      const counts = pool(cell.doors.map((ofDoor) => ofDoor[0]!));
      return [
        [
          planned.number,
          replicate,
          ...factorValues(planned, plan),
          ...COUNTS.map(({ of }) => of(counts)),
          ...measures(planned).map((measure) => measure && valueOf(measure, cell)),
          effort.holes,
          effort.cable_m,
          effort.cost,
        ],
      ];
    },
  };
}

/** Every door with every logic. */
export function doorTable(plan: StudyPlan): ResultTable {
  return {
    columns: [
      ...FIRST,
      ...factorColumns(plan),
      { name: 'door', type: 'text', description: 'Name of the door.' },
      { name: 'logic', type: 'text', description: 'Name of the logic.' },
      ...COUNT_COLUMNS,
      {
        name: 'wrong_per_100',
        type: 'number',
        unit: 'per 100 crossings',
        description: 'Missed, reversed, extra and invented together; empty without a crossing.',
      },
    ],
    rows: (planned, replicate, cell) =>
      planned.names.doors.flatMap((door, d) =>
        planned.names.logics.map((logic, l) => {
          const counts = cell.doors[d]![l]!;
          const { crossings } = counts.total;
          return [
            planned.number,
            replicate,
            ...factorValues(planned, plan),
            door,
            logic,
            ...COUNTS.map(({ of }) => of(counts)),
            crossings === 0 ? null : (100 * wrongOf(counts.total)) / crossings,
          ];
        }),
      ),
  };
}

function valueOf(measure: Measure, cell: Cell): number | null {
  const { events, exposure } = measure.of(cell);
  return exposure === 0 ? null : ((measure.options.scale ?? 1) * events) / exposure;
}

function factorColumns({ factors }: StudyPlan): Column[] {
  return factors.map(({ name, levels }): Column => {
    const numeric = levels.every(({ value }) => value !== null);
    return { name, type: numeric ? 'number' : 'text', description: 'Level of this factor.' };
  });
}

function factorValues({ levels }: PlannedDesign, { factors }: StudyPlan): Value[] {
  return factors.map((factor, f) => {
    const { value, label } = factor.levels[levels[f]!]!;
    return factor.levels.every((level) => level.value !== null) ? value : label;
  });
}
