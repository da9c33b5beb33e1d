/**
 * The whole way of a crowd, from a design to passages.csv, tallies.csv and metrics, as every replicate and every cell of a
 * study goes it; and the same with what `jambeam run` adds for its report: causes of wrong passages, pictures, rare kinds
 * looked at again, and the first replicates once more with half and double the traffic.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openEventFiles } from '../src/cli/event-files.js';
import type { Design } from '../src/scenario/schema.js';
import type { Metrics } from '../src/score/metrics-schema.js';
import { runReplicate } from '../src/simulate/replicate.js';
import { assemble, simulate } from '../src/simulate/simulate.js';
import { check, checkWithin } from './check.js';
import type { BenchCrowd } from './crowds.js';
import { crowdNamed, designOf } from './crowds.js';
import type { Measured } from './measured.js';
import { timed } from './measured.js';

const PASSAGES = 60_000;
const RANGER_PASSAGES = 20_000;

export function pipeline(name: string, repeats: number): Measured[] {
  const crowd = crowdNamed(name);
  const design = designOf(crowd, crowd.ranger ? RANGER_PASSAGES : PASSAGES);
  const passages = checkedRun(design, crowd);
  return [{ label: name, units: passages, ...timed(repeats, () => run(design)) }];
}

/** With what a report needs besides. */
export function forReport(name: string, repeats: number): Measured[] {
  const crowd = crowdNamed(name);
  const design = designOf(crowd, crowd.ranger ? RANGER_PASSAGES : PASSAGES);
  const { house } = simulate(design).metrics;
  return [{ label: name, units: house.visits, ...timed(repeats, () => simulate(design)) }];
}

/** Simulates and writes rows to a folder that is taken away again. @returns what `read` makes of it before it goes */
export function run<T = void>(design: Design, read?: (metrics: Metrics, folder: string) => T): T | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));
  try {
    const files = openEventFiles(folder, design, false);
    const results = Array.from({ length: design.replicates }, (_, r) => runReplicate(design, r + 1, files.sinks));
    files.close();
    const { metrics } = assemble(design, results, { closer: false });
    return read?.(metrics, folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The same with its answer checked: rows, metrics and edges must tell one story. @returns the number of passages */
function checkedRun(design: Design, crowd: BenchCrowd): number {
  let breaks = 0;
  let clears = 0;
  for (let number = 1; number <= design.replicates; number++)
    runReplicate(design, number, { edge: (_, { level }) => (level === 1 ? breaks++ : clears++) });
  check(breaks === clears, `${breaks} breaks but ${clears} clears: every beam is clear in the end`);

  return run(design, (metrics, folder) => {
    const rowsOf = (file: string) => readFileSync(join(folder, file), 'utf8').trimEnd().split('\n').length - 1;
    const [door] = metrics.doors;
    const { visits, person_crossings, breaks_per_crossing } = door!;
    const cells = metrics.doors.map(({ confusion }) => confusion.counts.flatMap((row) => [row[0]!, row[1]!, row[3]!]));
    const tallies = metrics.doors.map((one) => one.tallies);
    check(rowsOf('passages.csv') === visits, 'passages.csv has not one row a visit');
    check(rowsOf('tallies.csv') === sum(tallies), 'tallies.csv has not one row a tally');
    check(sum(cells.flat()) === sum(tallies), 'a tally is not in the confusion exactly once');
    const told = sum(breaks_per_crossing.map(({ estimate }) => estimate.value! * person_crossings));
    check(Math.abs(told - breaks) < 0.5, `metrics tell of ${told} breaks, there were ${breaks}`);
    for (const { beam, estimate } of breaks_per_crossing)
      checkWithin(estimate.value, crowd.breaksPerCrossing, `breaks per crossing of beam ${beam}`);
    checkWithin(metrics.house.wrong_per_100.value, crowd.wrongPer100, 'wrong per 100 crossings');
    return visits;
  })!;
}

function sum(all: readonly number[]): number {
  return all.reduce((total, one) => total + one, 0);
}
