/** Which cases there are, what each should reach, and the tables they are printed in. */
import { spawnSync } from 'node:child_process';
import { cpus } from 'node:os';
import { CROWDS, RANGER_CROWDS } from './crowds.js';
import { HOUSE_SENSORS } from './house-sensors.js';
import { LOGIC_CASES } from './logics.js';
import type { Measured } from './measured.js';
import { least, median } from './measured.js';
import { help, houseRun, starterRun } from './start-up.js';
import { largestHouse } from './largest.js';
import { bareCells, millionRows, nightOfCells, studyCells } from './study.js';

/** A built checkout, and the measuring process compiled against it. */
export interface Build {
  readonly name: string;
  readonly root: string;
  readonly measure: string;
}

interface Case {
  readonly name: string;
  run(build: Build): Measured[];
}

interface Table {
  readonly title: string;
  readonly heads: readonly string[];
  readonly cases: readonly Case[];
  /** One case's rows. */
  readonly cells: (name: string, measured: readonly Measured[]) => (string | number)[][];
}

const REACH = { pipeline: 80_000, rangers: 20_000, stepper: 10, help_s: 0.2, starter_s: 3, memory_mb: 250 };
/** The guesthouse: a simulated week, and the whole command with 20 of them, seconds. */
const HOUSE_REACH = { barriers: { week: 1, command: 15 }, rangers: { week: 5, command: 60 } } as const;
const REPEATS = 7;

function tables(long: boolean): Table[] {
  const sizes = [100_000, 1_000_000, ...(long ? [10_000_000] : [])];
  const measured = (kind: string, what: string, repeats = REPEATS): Case => ({
    name: `${kind}: ${what}`,
    run: (build) => measure(build, kind, what, repeats),
  });
  return [
    {
      title:
        'Pipeline: one doorway, a pair of light barriers, from the design to passages.csv, tallies.csv and metrics',
      heads: [
        'crowd',
        'passages',
        'best, passages a second and core',
        'median',
        'best by the clock',
        `reach ${REACH.pipeline}`,
      ],
      cases: CROWDS.map(({ name }) => measured('pipeline', name)),
      cells: (_, all) =>
        all.map(({ label, units, seconds, cpu_s }) => {
          const [best, usual, clock] = [least(cpu_s), median(cpu_s), least(seconds)].map((s) => units / s);
          return [label, units, round(best!), round(usual!), round(clock!), yes(best! >= REACH.pipeline)];
        }),
    },
    {
      title: 'The same with a pair of rangers, each read every 30 ms',
      heads: [
        'crowd',
        'passages',
        'best, passages a second and core',
        'median',
        'best by the clock',
        `reach ${REACH.rangers}`,
      ],
      cases: RANGER_CROWDS.map(({ name }) => measured('pipeline', name, 5)),
      cells: (_, all) =>
        all.map(({ label, units, seconds, cpu_s }) => {
          const [best, usual, clock] = [least(cpu_s), median(cpu_s), least(seconds)].map((s) => units / s);
          return [label, units, round(best!), round(usual!), round(clock!), yes(best! >= REACH.rangers)];
        }),
    },
    {
      title: 'The same with what the command computes for its report: causes, pictures, half and double the traffic',
      heads: ['crowd', 'passages', 'best, passages a second and core', 'median'],
      cases: ['adults through at 1.3 m', 'default mix'].map((name) => measured('for report', name, 3)),
      cells: (_, all) =>
        all.map(({ label, units, cpu_s }) => [label, units, round(units / least(cpu_s)), round(units / median(cpu_s))]),
    },
    {
      title:
        'Logics, of ours and of one’s own: the default mix, all else the same. Programs run on other cores besides',
      heads: [
        'logics',
        'passages',
        'best by the clock, passages a second',
        'median',
        'best, µs a passage more than one built-in',
      ],
      cases: [
        {
          name: 'logics: all',
          run: (build) => Object.keys(LOGIC_CASES).flatMap((what) => measure(build, 'logics', what, 5)),
        },
      ],
      cells: (_, [plain, ...others]) =>
        [plain!, ...others].map(({ label, units, seconds }) => {
          const more_us = (1e6 * (least(seconds) - least(plain!.seconds))) / units;
          return [label, units, round(units / least(seconds)), round(units / median(seconds)), more_us.toFixed(1)];
        }),
    },
    ...CROWDS.filter(({ logics }) => logics === 1).map(({ name }) => ({
      title: `Stages: ${name}`,
      heads: ['stage', 'best, µs a passage on one core', 'median', 'best, passages a second and core'],
      cases: [measured('stages', name)],
      cells: (_: string, all: readonly Measured[]) =>
        all.map(({ label, units, cpu_s }) => {
          const [best, usual] = [least(cpu_s), median(cpu_s)].map((s) => (1e6 * s) / units);
          return [label, best!.toFixed(2), usual!.toFixed(2), round(1e6 / best!)];
        }),
    })),
    {
      title: 'Edge search against a 1 ms stepper with the same motions, poses and culling',
      heads: ['crowd', 'search, µs a passage', 'stepper', 'times faster', `reach ${REACH.stepper}`],
      cases: CROWDS.filter(({ logics }) => logics === 1).map(({ name }) => measured('stepper', name)),
      cells: (name, all) => {
        const [search, stepper] = all.map(({ units, cpu_s }) => (1e6 * least(cpu_s)) / units) as [number, number];
        const times = stepper / search;
        return [[name, search.toFixed(2), stepper.toFixed(1), times.toFixed(1), yes(times >= REACH.stepper)]];
      },
    },
    {
      title: 'The edge search’s loop against the same in C99, on the same limbs, tracks and beams laid out beforehand',
      heads: ['crowd', 'here, µs a passage', 'in C99', 'times as long as in C99'],
      cases: CROWDS.filter(({ logics }) => logics === 1).map(({ name }) => measured('limit', name)),
      cells: (name, all) => {
        const [here, inC] = all.map(({ units, cpu_s }) => (1e6 * least(cpu_s)) / units) as [number, number?];
        return [[name, here.toFixed(2), inC?.toFixed(2) ?? 'no compiler here', inC ? (here / inC).toFixed(2) : '']];
      },
    },
    {
      title: 'Start to end of a command',
      heads: ['what', 'best, s', 'median, s', 'reach'],
      cases: [
        { name: 'start-up: --help', run: ({ root }) => [help(root, REPEATS)] },
        { name: 'start-up: starter scenario', run: ({ root }) => [starterRun(root, REPEATS)] },
      ],
      cells: (_, all) =>
        all.map(({ label, seconds }) => {
          const reach = label === '--help' ? REACH.help_s : REACH.starter_s;
          return [label, least(seconds).toFixed(3), median(seconds).toFixed(3), within(least(seconds), reach, 's')];
        }),
    },
    {
      title: 'The guesthouse: one replicate of a week, all its logics and ledgers, once warm',
      heads: ['sensors', 'passages', 'best, s', 'median, s', 'reach'],
      cases: HOUSE_SENSORS.map((sensor) => measured('house', sensor, 5)),
      cells: (sensor, all) =>
        all.map(({ units, cpu_s }) => [
          sensor,
          units,
          least(cpu_s).toFixed(2),
          median(cpu_s).toFixed(2),
          within(least(cpu_s), houseReach(sensor).week, 's'),
        ]),
    },
    {
      title: 'The guesthouse: the command, 20 replicates of a week, to the finished report',
      heads: ['sensors', 's by the clock', 'reach'],
      cases: HOUSE_SENSORS.map((sensor) => ({
        name: `house command: ${sensor}`,
        run: ({ root }: Build) => [houseRun(root, sensor)],
      })),
      cells: (sensor, all) =>
        all.map(({ seconds }) => [
          sensor,
          least(seconds).toFixed(1),
          within(least(seconds), houseReach(sensor).command, 's'),
        ]),
    },
    {
      title: 'Peak memory of the guesthouse, rows written, by simulated days',
      heads: ['days', 'passages', 'seconds', 'peak, MB', 'reach'],
      cases: [7, 70, ...(long ? [365] : [])].map((days) => measured('house memory', String(days), 1)),
      cells: (days, all) =>
        all.map(({ units, seconds, peak_mb = NaN }) => [
          days,
          units,
          least(seconds).toFixed(1),
          round(peak_mb),
          within(peak_mb, REACH.memory_mb, 'MB'),
        ]),
    },
    {
      title: 'Studies: cells of some 50 ms, four designs of one door, by the difference of two sizes',
      heads: ['workers', 'cells', 'best, ms a cell', 'median', 'ms of processor a cell', 'times one worker'],
      cases: [
        {
          name: 'study: workers',
          run: ({ root }: Build) => [bareCells(5), studyCells(root, 1, 3), studyCells(root, 2, 3)],
        },
      ],
      cells: (_, all) =>
        all.map(({ label, units, seconds, cpu_s }) => {
          const [best, usual, cpu] = [least(seconds), median(seconds), least(cpu_s)].map((s) => (1000 * s) / units);
          const times = least(all[1]!.seconds) / all[1]!.units / (least(seconds) / units);
          return [label, units, best!.toFixed(1), usual!.toFixed(1), cpu!.toFixed(1), times.toFixed(2)];
        }),
    },
    {
      title: 'Studies: a million rows, 10,000 designs with 100 replicates each, their cells made up',
      heads: ['what', 'rows', 's by the clock', 'peak, MB'],
      cases: [{ name: 'study: a million rows', run: ({ root }: Build) => millionRows(root) }],
      cells: (_, all) =>
        all.map(({ label, units, seconds, peak_mb = NaN }) => [
          label,
          units,
          least(seconds).toFixed(1),
          round(peak_mb),
        ]),
    },
    {
      title: 'Studies: a night’s 1,152,000 cells, each cut to some 1 ms, two workers, to the finished report',
      heads: ['what', 'cells', 's by the clock', 'ms of processor a cell', 'peak, MB'],
      cases: long ? [{ name: 'study: a night of cells', run: ({ root }: Build) => nightOfCells(root) }] : [],
      cells: (_, all) =>
        all.map(({ label, units, seconds, cpu_s, peak_mb = NaN }) => [
          label,
          units,
          least(seconds).toFixed(0),
          ((1000 * least(cpu_s)) / units).toFixed(2),
          round(peak_mb),
        ]),
    },
    {
      title: 'The largest house: 50 doors with four beams each, two replicates, the command to its finished report',
      heads: ['days', 'passages', 's by the clock', 'peak, MB'],
      cases: [7, ...(long ? [365] : [])].map((days) => ({
        name: `largest house: ${days}`,
        run: ({ root }: Build) => largestHouse(root, days),
      })),
      cells: (_, all) =>
        all.map(({ label, units, seconds, peak_mb = NaN }) => [
          label,
          units,
          least(seconds).toFixed(1),
          round(peak_mb),
        ]),
    },
    {
      title: 'Peak memory of the default mix, rows written',
      heads: ['passages', 'seconds', 'peak, MB', 'reach'],
      cases: sizes.map((passages) => measured('memory', String(passages))),
      cells: (_, all) =>
        all.map(({ units, seconds, peak_mb = NaN }) => [
          units,
          least(seconds).toFixed(1),
          round(peak_mb),
          within(peak_mb, REACH.memory_mb, 'MB'),
        ]),
    },
  ];
}

function houseReach(sensor: string): { readonly week: number; readonly command: number } {
  return sensor === 'light-barrier' ? HOUSE_REACH.barriers : HOUSE_REACH.rangers;
}

/** Runs the cases whose name holds the words of `args`; prints a table for each group. @returns exit code */
export function main(args: readonly string[], builds: readonly Build[]): number {
  const words = args.filter((arg) => !arg.startsWith('--'));
  const wanted = ({ name }: Case) => words.every((word) => name.includes(word));
  const chosen = tables(args.includes('--long'))
    .map((table) => ({ ...table, cases: table.cases.filter(wanted) }))
    .filter(({ cases }) => cases.length > 0);
  if (chosen.length === 0) {
    process.stderr.write(`no bench has ${words.join(' ')} in its name; there are\n`);
    for (const { name } of tables(true).flatMap(({ cases }) => cases)) process.stderr.write(`  ${name}\n`);
    return 2;
  }
  say(
    `Node ${process.versions.node}, ${cpus()[0]?.model ?? 'unknown processor'}. Processor time counts all threads of a process.\n`,
  );
  for (const table of chosen) print(table, builds);
  return 0;
}

function print({ title, heads, cases, cells }: Table, builds: readonly Build[]): void {
  const several = builds.length > 1;
  say(`\n## ${title}\n\n`);
  row(several ? ['build', ...heads] : heads);
  row((several ? ['', ...heads] : heads).map(() => '---'));
  for (const one of cases) {
    byTurns(one, builds).forEach((measured, b) => {
      const [, what = ''] = one.name.split(': ');
      for (const line of cells(what, measured)) row(several ? [builds[b]!.name, ...line] : line);
    });
  }
}

/** Every build's measurements; with several builds three rounds of each by turns, so that a busy machine hits all alike. */
function byTurns(one: Case, builds: readonly Build[]): Measured[][] {
  const rounds = Array.from({ length: builds.length > 1 ? 3 : 1 }, () => builds.map((build) => one.run(build)));
  return builds.map((_, b) =>
    rounds[0]![b]!.map((first, i) => ({
      ...first,
      seconds: rounds.flatMap((round) => round[b]![i]!.seconds),
      cpu_s: rounds.flatMap((round) => round[b]![i]!.cpu_s),
    })),
  );
}

function measure({ measure }: Build, kind: string, what: string, repeats: number): Measured[] {
  const { status, stdout, stderr } = spawnSync(process.execPath, [measure, kind, what, String(repeats)], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${kind}: ${what} failed\n${stderr}`);
  return JSON.parse(stdout) as Measured[];
}

function row(cells: readonly (string | number)[]): void {
  say(`| ${cells.join(' | ')} |\n`);
}
function say(text: string): void {
  process.stdout.write(text);
}
function round(value: number): string {
  return value.toFixed(0);
}
function yes(reached: boolean): string {
  return reached ? 'yes' : 'no';
}
function within(value: number, most: number, unit: string): string {
  return `${yes(value < most)}, under ${most} ${unit}`;
}
