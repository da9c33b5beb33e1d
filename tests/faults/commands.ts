/**
 * Every command of `jambeam --help`, as it is driven through faults: its arguments in one prepared folder, what it writes
 * there, and how what it writes is known to be whole. A command that writes both a new place and over an old one is here
 * twice.
 */
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { RESULTS, studyText } from '../cli/study/folder.js';
import { folder, folderWithDoor, jambeam } from '../cli/jambeam.js';
import { HOUSE } from '../effort/houses.js';
import { benchCsv } from '../fitting/bench-data.js';
import { rodsText } from '../study/studies.js';
import { LONG } from '../how-many.js';

export interface Command {
  /** The command's own name first. */
  readonly args: readonly string[];
  /** Files that are there in whole once it has ended well; none: it writes nothing. */
  readonly writes: readonly string[];
  /** Folder of a study: what is done of it stays, and `--resume` goes on with it. */
  readonly study?: string;
  /** Whether it goes on by itself once the study is there, without being told. */
  readonly resumes?: boolean;
  /** Whether each file stands for itself: some may be new while others are old. */
  readonly severally?: boolean;
}

const RUN = ['report.html', 'metrics.json', 'design.json', 'figures.json', 'passages.csv', 'tallies.csv'];
const inside = (path: string, names: readonly string[]): string[] => names.map((name) => `${path}/${name}`);
const RANGER = ['--kind', 'triangulation-ranger', '--adc-bits', '12', '--adc-reference-v', '3.3'];

export const COMMANDS: readonly Command[] = [
  {
    args: ['new', 'fresh'],
    writes: inside('fresh', [
      'scenario.yaml',
      'my-logic.yaml',
      'my-logic.ts',
      'scenario.schema.json',
      'table.schema.json',
    ]),
  },
  { args: ['check', 'house.yaml', '--plan', 'plan.svg'], writes: ['plan.svg'] },
  { args: ['run', 'door.yaml', '--out', 'new.run', '--edges'], writes: inside('new.run', [...RUN, 'edges.csv']) },
  { args: ['run', 'door.yaml', '--seed', '9'], writes: inside('door.run', RUN) },
  {
    args: ['study', 'study.yaml', '--out', 'new.study', '--workers', '1', '--quiet'],
    writes: inside('new.study', [...RESULTS, 'report.html']),
    study: 'new.study',
  },
  { args: ['pick', 'all.study', '--want', 'house.wrong_per_100 < 3', '--least', 'holes'], writes: [] },
  { args: ['join', '--redis', 'redis://127.0.0.1:1'], writes: [] },
  {
    args: ['merge', 'one.study', 'two.study', '--out', 'merged.study'],
    writes: inside('merged.study', [...RESULTS, 'report.html']),
    study: 'merged.study',
    resumes: true,
  },
  { args: ['report', 'door.run', '--title', 'Another title'], writes: ['door.run/report.html'] },
  { args: ['report', 'all.study', '--title', 'Another title'], writes: ['all.study/report.html'] },
  { args: ['report', 'door.run', 'other.run', '--out', 'compare.html'], writes: ['compare.html'] },
  { args: ['passage', 'door.yaml', '--who', 'child'], writes: [] },
  { args: ['passage', 'door.run', '--number', '2', '--out', 'visit.svg'], writes: ['visit.svg'] },
  {
    args: ['passage', 'door.run', '--only', 'wrong', '--limit', '2', '--out', 'pictures'],
    writes: inside('pictures', ['picture-01.svg', 'picture-02.svg']),
    severally: true,
  },
  {
    args: ['replay', 'other.run/edges.csv', '--scenario', 'door.yaml', '--truth', 'other.run/passages.csv'].concat(
      '--out',
      'replayed.run',
    ),
    writes: inside('replayed.run', ['report.html', 'metrics.json', 'design.json', 'tallies.csv', 'replay.json']),
  },
  { args: ['walktest', 'door.run', '--sheet', 'walks.csv'], writes: ['walks.csv'] },
  { args: ['walktest', 'door.run', '--sheet', 'walks.html'], writes: ['walks.html'] },
  { args: ['fit', 'bench.csv', ...RANGER, '--out', 'mine.yaml'], writes: ['mine.yaml', 'mine.svg'] },
  { args: ['fit', '--logger', 'bench'], writes: inside('bench', ['capture.c', 'BENCH.md']) },
  {
    args: ['firmware', 'door.yaml', '--logic', 'four-level', '--out', 'source'],
    writes: inside('source', ['README.md', 'jambeam-firmware.json']),
  },
  { args: ['keys'], writes: [] },
  { args: ['sources', '--json'], writes: [] },
];

/** They print a text and touch no file. */
export const ONLY_WORDS = ['help', 'completion'];

/** The default run drives one row of so many, the long one all. */
export function driven(
  one: number,
  of: number,
): { readonly title: string; readonly command: Command; readonly i: number }[] {
  return COMMANDS.map((command, i) => ({ title: titleOf(command), command, i })).filter(
    ({ i }) => LONG || i % of === one,
  );
}

const titleOf = ({ args }: Command): string => `jambeam ${args.join(' ')}`;

/** What the same user would type afterwards. */
function againArgs({ args, study, resumes }: Command, there: Snapshot): readonly string[] {
  return study !== undefined && resumes !== true && there.has(`${study}/`) ? [...args, '--resume'] : args;
}

/** How a command ends where nothing is in its way; nobody answers at the address of `join`. */
export const usualCode = ({ args }: Command): 0 | 2 => (args[0] === 'join' ? 2 : 0);

let prepared: Promise<string> | undefined;

/**
 * A copy of one prepared folder: scenarios, two finished runs, a finished study and two slices of it, a bench's readings.
 * It is made once for all files of tests that a process runs.
 */
export async function preparedFolder(path = folder()): Promise<string> {
  prepared ??= prepare();
  cpSync(await prepared, path, { recursive: true });
  return path;
}

async function prepare(): Promise<string> {
  const cwd = mkdtempSync(join(inject('runFolder'), 'prepared-'));
  for (const file of ['door.yaml', 'my-logic.yaml']) cpSync(join(folderWithDoor(), file), join(cwd, file));
  writeFileSync(join(cwd, 'house.yaml'), HOUSE);
  writeFileSync(join(cwd, 'rods.yaml'), rodsText('faults', 1));
  writeFileSync(join(cwd, 'study.yaml'), studyText({ spacings: [0.05, 0.1], replicates: '2' }));
  const truth = {
    distances_m: [0.1, 0.15, 0.2, 0.3, 0.5, 0.8],
    rows: 10,
    stray_share: 0,
    dropout_share: 0,
    range_m: [0.1, 0.8],
    reads: (d: number) => 0.05 + 0.24 / (d + 0.012),
    sd: () => 0.008,
    write: (v: number) => String(Math.floor((v / 3.3) * 4096)),
  } as const;
  writeFileSync(join(cwd, 'bench.csv'), benchCsv('true_m,adc_counts', truth, Stream.root('faults')));
  for (const args of [
    ['run', 'door.yaml'],
    ['run', 'door.yaml', '--seed', '2', '--edges', '--out', 'other.run'],
    ['study', 'study.yaml', '--out', 'all.study', '--workers', '1', '--quiet'],
    ['study', 'study.yaml', '--out', 'one.study', '--workers', '1', '--quiet', '--slice', '1/2'],
    ['study', 'study.yaml', '--out', 'two.study', '--workers', '1', '--quiet', '--slice', '2/2'],
  ])
    expect(await jambeam(args, { cwd }), args.join(' ')).toMatchObject({ code: 0 });
  return cwd;
}

/** All paths in a folder with a digest of what they hold; folders end in `/`. */
export type Snapshot = ReadonlyMap<string, string>;

export function snapshotOf(folder: string): Snapshot {
  const found = new Map<string, string>();
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    const path = join(entry.parentPath, entry.name);
    const name = path.slice(folder.length + 1);
    if (entry.isDirectory()) found.set(`${name}/`, '');
    else found.set(name, digest(journalInOrder(name, readFileSync(path))));
  }
  return found;
}

const digest = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Cells stand in a journal in the order they came in. */
function journalInOrder(name: string, bytes: Buffer): Buffer {
  return name.endsWith('journal.jsonl') ? Buffer.from(bytes.toString('utf8').split('\n').sort().join('\n')) : bytes;
}

/**
 * What a command that was cut short has left: nothing of it, all of it, or what is allowed in between. Whatever else is
 * there, or is there in part, fails.
 */
export function expectWhole(command: Command, before: Snapshot, after: Snapshot, now: Snapshot, cwd: string): void {
  const as = (one: Snapshot): readonly string[] =>
    [...now.keys(), ...one.keys()].filter((path) => now.get(path) !== one.get(path));
  const [sinceBefore, untilAfter] = [as(before), as(after)];
  if (sinceBefore.length === 0 || untilAfter.length === 0) return;
  const odd = [...new Set(sinceBefore)].filter((path) => {
    const done = now.get(path) === after.get(path);
    if (command.severally === true) return !done;
    return command.study === undefined || !path.startsWith(command.study) || (!done && !isJournal(path, cwd));
  });
  expect(odd, `${titleOf(command)} left these neither old nor new`).toEqual([]);
}

/** Whole lines only, each with its sum. */
function isJournal(path: string, cwd: string): boolean {
  if (!path.endsWith('journal.jsonl')) return false;
  const text = readFileSync(join(cwd, path), 'utf8');
  const lines = text.split('\n');
  return lines.pop() === '' && lines.every((line) => digest(Buffer.from(line.slice(9))).startsWith(line.slice(0, 8)));
}

/** Typed again, it does what it usually does: nothing has to be tidied up by hand. */
export async function expectDoneAgain(command: Command, now: Snapshot, after: Snapshot, cwd: string): Promise<void> {
  const again = await jambeam(againArgs(command, now), { cwd });
  expect(again.code, again.err).toBe(0);
  expect(Object.fromEntries(snapshotOf(cwd))).toEqual(Object.fromEntries(after));
}

/** Each file that was to be written can be read to its end. */
export function expectWritten({ writes }: Command, cwd: string): void {
  for (const name of writes) {
    const bytes = readFileSync(join(cwd, name));
    const text = bytes.toString('utf8');
    const end = text.trimEnd();
    if (name.endsWith('.json')) JSON.parse(text);
    else if (name.endsWith('.html')) expect(end, name).toMatch(/<\/html>$/);
    else if (name.endsWith('.svg')) expect(end, name).toMatch(/<\/svg>$/);
    // The format's magic number: Apache Parquet, File Format, "4-byte magic number PAR1" at either end.
    else if (name.endsWith('.parquet')) expect(bytes.toString('latin1', bytes.length - 4), name).toBe('PAR1');
    else expect(text, name).toMatch(/[^\n]\n$/);
  }
}

/** No stack trace, and no fault of ours. */
export function expectPlainWords(text: string): void {
  expect(text).not.toMatch(/^\s+at .*[:(]\d+/m);
  expect(text).not.toContain('the fault is ours');
  expect(text).not.toMatch(/node:internal|UnhandledPromise/);
}
