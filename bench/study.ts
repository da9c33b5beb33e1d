/** Studies: what threads gain, what the machinery costs, and a folder with a million rows. */
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  rmSync,
  closeSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseScenario } from '../src/scenario/parse.js';
import { runReplicate } from '../src/simulate/replicate.js';
import { cellOf, flat } from '../src/study/cells/cell.js';
import { planStudy } from '../src/study/plan/plan.js';
import { studySchema } from '../src/study/plan/schema.js';
import { requestOf } from '../src/study/request.js';
import { lineOf } from '../src/study/store/journal.js';
import { check } from './check.js';
import { command } from './command.js';
import type { Measured } from './measured.js';
import { timed } from './measured.js';

/** Rods one way; a replicate takes some 50 ms. */
const RODS = `format: 1
name: rods
rooms: [{ name: hall }]
hours: 18
walkers: { rod: { kind: test-rod, diameter_m: 0.3, speed_mps: 1 } }
logics: [four-level]
ledgers: [raw]
doors:
  - name: door
    from: outside
    to: hall
    width_m: 0.9
    pair: { height_m: 0.9, spacing_m: 0.1 }
    traffic: { arrivals_per_hour: 600, one_way: true, mix: [{ who: rod, kind: through, share: 1 }] }
`;
const DESIGNS = 4;
/** The difference of two sizes is free of what it takes to start and end. */
const SIZES = [5, 35] as const;

function study(factors: object, replicates: number): string {
  return JSON.stringify({ format: 1, name: 'rods', scenario: 'rods.yaml', factors, replicates });
}

function folderWith(text: string, scenario = RODS): string {
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));
  writeFileSync(join(folder, 'rods.yaml'), scenario);
  writeFileSync(join(folder, 'study.yaml'), text);
  return folder;
}

/** Seconds a cell of a study takes on so many workers, beyond start and end. */
export function studyCells(root: string, workers: number, repeats: number): Measured {
  const all = Array.from({ length: repeats }, () => {
    const [few, many] = SIZES.map((replicates) => {
      const cwd = folderWith(study([{ key: 'doors.*.pair.spacing_m', values: [0.05, 0.1, 0.15, 0.2] }], replicates));
      const used = command(root, cwd, 'study', 'study.yaml', '--quiet', '--workers', String(workers));
      check(existsSync(join(cwd, 'study.study/results.parquet')), 'no results');
      rmSync(cwd, { recursive: true });
      return used;
    });
    return { seconds: many!.seconds - few!.seconds, cpu_s: many!.cpu_s - few!.cpu_s };
  });
  return {
    label: `${workers}`,
    units: DESIGNS * (SIZES[1] - SIZES[0]),
    seconds: all.map(({ seconds }) => seconds),
    cpu_s: all.map(({ cpu_s }) => cpu_s),
  };
}

/** The same cells without a study round them. */
export function bareCells(repeats: number): Measured {
  const { design } = parseScenario(RODS, 'rods.yaml');
  let number = 1;
  const units = 40;
  const work = (): void => {
    for (let i = 0; i < units; i++) {
      const { record } = runReplicate(design!, number++, {});
      check(record.doors[0]!.logics[0]!.total.visits > 1000, 'nobody came');
    }
  };
  return { label: 'bare', units, ...timed(repeats, work) };
}

/**
 * A night of two cores at 50 ms a cell, each cell cut to some 1 ms: 9,600 designs with 120 replicates each, really
 * computed, to the finished report.
 */
export function nightOfCells(root: string): Measured[] {
  const [designs, replicates] = [9_600, 120];
  const factors = [
    { key: 'doors.*.pair.spacing_m', from: 0.05, to: 0.1695, step: 0.001 },
    { key: 'doors.*.pair.height_m', from: 0.3, to: 1.0905, step: 0.01 },
  ];
  const cwd = folderWith(study(factors, replicates), RODS.replace('hours: 18', 'hours: 0.25'));
  const { seconds, cpu_s, peak_mb } = command(root, cwd, 'study', 'study.yaml', '--quiet', '--workers', '2');
  check(statSync(join(cwd, 'study.study/results.csv')).size > 1e8, 'no million rows');
  rmSync(cwd, { recursive: true });
  return [
    {
      label: 'cells cut to 1 ms',
      units: designs * replicates,
      seconds: [seconds],
      cpu_s: [cpu_s],
      peak_mb,
    },
  ];
}

/** A study of 10,000 designs with 100 replicates each, its cells made up from a real one; finished, then reported again. */
export function millionRows(root: string): Measured[] {
  const [designs, replicates] = [10_000, 100];
  const factors = [
    { key: 'doors.*.pair.spacing_m', from: 0.05, to: 0.1495, step: 0.001 },
    { key: 'doors.*.pair.height_m', from: 0.3, to: 1.2905, step: 0.01 },
  ];
  const text = study(factors, replicates);
  const cwd = folderWith(text);
  const { design } = parseScenario(RODS, 'rods.yaml');
  const file = studySchema.parse(JSON.parse(text));
  const { plan } = planStudy(file, design!, undefined);
  check(plan?.designs.length === designs, 'another number of designs');
  const out = join(cwd, 'study.study');
  mkdirSync(out);
  writeFileSync(
    join(out, 'jambeam-study.json'),
    JSON.stringify({ request: requestOf(file, design!, {}, {}), slice: null }),
  );
  const cell = flat(cellOf(runReplicate(design!, 1, {}).record));
  const fd = openSync(join(out, 'journal.jsonl'), 'wx');
  for (const { key, number } of plan!.designs) {
    const lines = Array.from({ length: replicates }, (_, r) => {
      const missed = 100 + ((number * 7 + r * 13) % 40);
      return lineOf(
        JSON.stringify({ d: key, r: r + 1, v: cell.v.map((one, i) => (i === 2 ? missed : one)), who: cell.who }),
      );
    });
    writeSync(fd, lines.join(''));
  }
  closeSync(fd);
  const measured = (label: string, ...args: readonly string[]): Measured => {
    const { seconds, cpu_s, peak_mb } = command(root, cwd, ...args);
    return { label, units: designs * replicates, seconds: [seconds], cpu_s: [cpu_s], peak_mb };
  };
  const all = [
    measured('its end: results, ranking, report', 'study', 'study.yaml', '--quiet', '--resume'),
    measured('report again', 'report', 'study.study'),
    measured('pick', 'pick', 'study.study', '--want', 'house.wrong_per_100 < 50'),
  ];
  check(statSync(join(out, 'results.csv')).size > 1e8, 'no million rows');
  rmSync(cwd, { recursive: true });
  return all;
}
