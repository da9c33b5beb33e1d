/** The folder of a study: its request, the journal of its cells, and, once it is finished, its results. */
import { mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { z } from 'zod';
import { jsonOrNothing } from '../../engine/json.js';
import type { PlannedDesign, StudyPlan } from '../../study/plan/plan.js';
import { Standing } from '../../study/run/standing.js';
import { changesBetween, planOfRequest, requestSchema } from '../../study/request.js';
import type { Entry } from '../../study/store/entry.js';
import { Journal, type Span } from '../../study/store/journal.js';
import { Lock } from '../../study/store/lock.js';
import { VERSION } from '../../simulate/version.js';
import { MARKER, isStudyFolder } from './is-study-folder.js';
import { kindOf, readText, refuseAllButFiles, replaceFile, syncFolder } from '../files.js';
import type { Io } from '../io.js';
import { nothingToStandIn } from '../new-places.js';
import { folderAt } from '../out-folder.js';
import { UserProblem, onDisk, pathText } from '../problem.js';

const JOURNAL = 'journal.jsonl';
/** Of a finished study. */
export const RESULTS = [
  'results.csv',
  'results.parquet',
  'results-doors.csv',
  'results-doors.parquet',
  'study.json',
  'report.html',
] as const;
const MOST_BYTES = 64 * 1_048_576;

const sliceSchema = z.strictObject({ number: z.int().min(1), of: z.int().min(1).max(10_000) });
export type Slice = z.infer<typeof sliceSchema>;

const markerSchema = z.strictObject({
  request: requestSchema,
  /** Which part of the designs this folder is for; null: all. */
  slice: sliceSchema.nullable(),
});
export type StudyMarker = z.infer<typeof markerSchema>;

/** What is to become of a folder that holds a study already. */
export interface Intent {
  readonly resume: boolean;
  readonly extend: boolean;
  readonly force: boolean;
}

/** What a folder of a study holds. @throws {UserProblem} when it is none, or of another version */
export function readStudyMarker(folder: string): StudyMarker {
  const name = pathText(folder);
  const file = join(folder, MARKER);
  if (kindOf(folder) !== 'folder' || kindOf(file) !== 'file')
    throw new UserProblem(`${name} is no folder of a study: it has no ${MARKER}`, '`jambeam study` makes one');
  const broken = new UserProblem(`${pathText(file)} is not as a study wrote it`, 'start the study in another folder');
  const value = jsonOrNothing(readText(file, 'a marker file', MOST_BYTES));
  const version = (value as { request?: { jambeam?: unknown } } | null | undefined)?.request?.jambeam;
  if (typeof version === 'string' && version !== VERSION)
    throw new UserProblem(
      `${name} is a study of jambeam ${pathText(version)}; this is ${VERSION}, whose cells may differ`,
      'go on with the version it was begun with, or begin anew in another folder',
    );
  const { data } = markerSchema.safeParse(value);
  if (!data) throw broken;
  return data;
}

export class StudyFolder {
  private constructor(
    readonly path: string,
    private readonly lock: Lock,
    readonly journal: Journal,
  ) {}

  /**
   * Opens a folder to run a study in, makes it if it isn't there, and tells its cells.
   *
   * @throws {UserProblem} when it holds something else, another study, or another process is at it
   */
  static async open(
    out: string,
    marker: StudyMarker,
    intent: Intent,
    standing: Standing,
    io: Io,
  ): Promise<StudyFolder> {
    const { path, name, kind } = folderAt(out);
    const isNew = kind === 'nothing';
    if (isNew) {
      if (intent.resume || intent.extend)
        throw new UserProblem(
          `${name}: there is no such folder, so there is no study to go on with`,
          'start it without --resume and --extend',
        );
      makeNew(path, out, marker);
    } else if (!isStudyFolder(path) && readdirSync(path).length > 0)
      throw new UserProblem(`${name} is there already and holds no study`, 'choose another with --out');
    const lock = await Lock.take(path);
    if (lock === null)
      throw new UserProblem(`${name}: another jambeam is at this study`, 'wait until it has ended, or stop it');
    try {
      if (!isNew) settle(path, name, marker, intent);
      for (const file of [JOURNAL, ...RESULTS]) refuseAllButFiles(join(out, file));
      const journal = openJournal(path, (entry, span) => standing.take(entry, span));
      if (journal.damaged > 0)
        io.err(`note: ${journal.damaged} records of ${name} were torn or damaged; their cells are done again\n`);
      return new StudyFolder(path, lock, journal);
    } catch (error) {
      lock.release();
      throw error;
    }
  }

  close(): void {
    this.journal.close();
    this.lock.release();
  }
}

function openJournal(folder: string, each: (entry: Entry, span: Span) => boolean): Journal {
  const file = join(folder, JOURNAL);
  return onDisk(`${pathText(file)} can't be opened`, () => Journal.open(file, each));
}

/** The cells of a study's folder as they are now, to read. */
export interface StudyAsItIs {
  readonly marker: StudyMarker;
  readonly standing: Standing;
  readonly journal: Journal;
}

/** @throws {UserProblem} when the folder is no study, or one that can't be read */
export function lookAt(folder: string): StudyAsItIs {
  const marker = readStudyMarker(folder);
  const standing = new Standing(planIn(folder, marker), sliceMine(marker.slice));
  return { marker, standing, journal: readJournal(folder, (entry, span) => standing.take(entry, span)) };
}

/** The plan of a folder's study, worked out again. */
export function planIn(folder: string, { request }: StudyMarker): StudyPlan {
  const plan = planOfRequest(request);
  if (typeof plan !== 'string') return plan;
  throw new UserProblem(`${pathText(join(folder, MARKER))} is not as a study wrote it:\n${pathText(plan)}`);
}

/** The journal of a folder, to read alone; every entry told. */
export function readJournal(folder: string, each: (entry: Entry, span: Span) => boolean): Journal {
  const file = join(folder, JOURNAL);
  const journal = onDisk(`${pathText(file)} can't be read`, () => Journal.look(file, each));
  if (journal) return journal;
  throw new UserProblem(`${pathText(folder)} holds no cells yet`, 'wait until the first ones are done');
}

/** Which designs a slice is for; undefined: all. */
export function sliceMine(slice: Slice | null): ((planned: PlannedDesign) => boolean) | undefined {
  return slice ? ({ number }) => number % slice.of === slice.number % slice.of : undefined;
}

/** Made beside its name, with its marker in it, and renamed: there is never a study's folder without one. */
function makeNew(path: string, out: string, marker: StudyMarker): void {
  const unfinished = join(dirname(path), `.${basename(path)}.unfinished-${process.pid}`);
  if (kindOf(dirname(path)) !== 'folder' && kindOf(dirname(path)) !== 'link') throw nothingToStandIn(out);
  onDisk(`${pathText(out)} can't be made`, () => {
    try {
      mkdirSync(unfinished);
      writeMarker(unfinished, marker);
      renameSync(unfinished, path);
      syncFolder(dirname(path));
    } finally {
      rmSync(unfinished, { recursive: true, force: true });
    }
  });
}

function writeMarker(folder: string, marker: StudyMarker): void {
  replaceFile(join(folder, MARKER), `${JSON.stringify(marker)}\n`);
}

/** What a folder that is there may be used for. */
function settle(path: string, name: string, marker: StudyMarker, { resume, extend, force }: Intent): void {
  if (kindOf(join(path, MARKER)) === 'nothing') return writeMarker(path, marker);
  if (force) {
    for (const file of [JOURNAL, ...RESULTS]) rmSync(join(path, file), { force: true });
    return writeMarker(path, marker);
  }
  const before = readStudyMarker(path);
  if (JSON.stringify(before.slice) !== JSON.stringify(marker.slice))
    throw new UserProblem(
      `${name} is for ${sliceWords(before.slice)}, not for ${sliceWords(marker.slice)}`,
      'choose another with --out',
    );
  const changes = changesBetween(before.request, marker.request);
  if (changes.length === 0) {
    if (resume || extend) return;
    throw new UserProblem(
      `${name} holds this study already`,
      'go on with --resume; --force throws its cells away and begins anew',
    );
  }
  if (!extend)
    throw new UserProblem(
      [`${name} holds a study that is not this one:`, ...changes.map((line) => `    ${pathText(line)}`)].join('\n'),
      '--extend keeps the cells that both share; or choose another folder with --out',
    );
  for (const file of RESULTS) rmSync(join(path, file), { force: true });
  writeMarker(path, marker);
}

function sliceWords(slice: Slice | null): string {
  return slice ? `slice ${slice.number}/${slice.of}` : 'a whole study';
}
