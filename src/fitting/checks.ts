/** What must be right with a bench before it is fitted: units that fit together, enough distances, enough readings. */
import type { Issue } from '../scenario/issue.js';
import { type Bench, type BenchOptions, type Group, READING_COLUMNS, givenBy, groupsOf } from './bench.js';
import { curveOf } from './curves.js';
import { median } from './strays.js';
import { told } from './told.js';
import { unitIssues } from './units.js';

/** Fewest readings with an echo at a distance: a median of fewer is no robust centre. */
export const LEAST_READINGS = 5;

/** All that keeps a bench from being fitted; empty when nothing does. */
export function dataIssues(bench: Bench, options: BenchOptions): Issue[] {
  const tell = told(bench.file);
  const { line, truth, reads } = bench.header;
  if (!givenBy(bench.reads, options.kind)) {
    const takes = Object.keys(READING_COLUMNS).filter((name) => givenBy(name as typeof bench.reads, options.kind));
    const gives = READING_COLUMNS[bench.reads].join(' or ');
    return [
      tell(
        line,
        reads,
        `${article(options.kind)} gives ${takes.join(' or ')}, found ${bench.reads}`,
        `${bench.reads} is what ${article(gives)} gives: is --kind right?`,
      ),
    ];
  }
  const units = unitIssues(bench, options);
  if (units.length > 0) return units;

  const groups = groupsOf(bench, options);
  const { length: parameters } = curveOf(options.kind).names;
  const needed = parameters + 1;
  if (groups.length === 1)
    return [
      tell(line, truth, `all rows are at one distance, ${groups[0]!.distance_m} m: a curve needs at least ${needed}`),
    ];
  if (groups.length < needed)
    return [
      tell(
        line,
        truth,
        `${parameters} parameters of the curve need at least ${needed} distances, found ${groups.length}`,
        'one distance more than parameters, so that a curve that does not fit can show',
      ),
    ];
  return [...thinIssues(bench, groups), ...(options.kind === 'triangulation-ranger' ? foldIssues(bench, groups) : [])];
}

function article(kind: string): string {
  return `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`;
}

/** Distances with too few readings, and those where most are silent: out of range, and no matter of drop-outs. */
function thinIssues(bench: Bench, groups: readonly Group[]): Issue[] {
  const tell = told(bench.file);
  return groups.flatMap(({ distance_m, values, silent }) => {
    const row = bench.rows.find((one) => one.distance_m === distance_m)!;
    const at = `at ${distance_m} m`;
    if (values.length < silent)
      return [
        tell(
          row.line,
          row.column,
          `${at} only ${values.length} of ${values.length + silent} readings have an echo`,
          'out of its range, or too near? leave that distance out: it says nothing about drop-outs',
        ),
      ];
    if (values.length < LEAST_READINGS)
      return [
        tell(
          row.line,
          row.column,
          `${at} there are ${values.length} readings with an echo, expected at least ${LEAST_READINGS}`,
          'take about 30 at each distance: they tell noise and strays',
        ),
      ];
    return [];
  });
}

/** Nearer than the fold voltage falls again, and no curve of this kind goes through that. */
function foldIssues(bench: Bench, all: readonly Group[]): Issue[] {
  // Where all readings are silent there is no middle; that is told already.
  const groups = all.filter(({ values }) => values.length > 0);
  if (groups.length === 0) return [];
  const middle = groups.map((group) => median(group.values));
  const top = middle.indexOf(Math.max(...middle));
  if (top === 0) return [];
  const row = bench.rows.find((one) => one.distance_m === groups[0]!.distance_m)!;
  const peak = groups[top]!.distance_m;
  // At the far end noise may put one distance above its neighbour; near by the curve is steep.
  if (middle[0]! < middle.at(-1)!)
    return [
      told(bench.file)(
        row.line,
        row.column,
        'readings grow with distance, and those of triangulation fall',
        'are the columns exchanged, or is --kind another?',
      ),
    ];
  return [
    told(bench.file)(
      row.line,
      row.column,
      `readings at ${groups[0]!.distance_m} m are lower than at ${peak} m`,
      `nearer than the fold of the curve: leave out what is nearer than ${peak} m, and write fold_m: ${peak} into the profile`,
    ),
  ];
}
