/**
 * A folder that a command writes, known as ours by a marker file.
 *
 * Everything is written into an unfinished folder of another name first, synced, and only then renamed; what was there
 * before stays whole until that moment. Links are never followed. Files in it that aren't ours are left alone.
 */
import { randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, realpathSync, renameSync, rmSync, rmdirSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { z } from 'zod';
import { jsonOrNothing } from '../engine/json.js';
import { sha256 } from '../report/sha256.js';
import { VERSION } from '../simulate/version.js';
import { kindOf, readText, syncFolder, writeNew } from './files.js';
import { nothingToStandIn } from './new-places.js';
import { UserProblem, onDisk, pathText } from './problem.js';

/** What a command's folders are like. */
export interface FolderKind {
  /** Name of the marker file. */
  readonly marker: string;
  /** All that may be written; those that aren't are taken away. */
  readonly files: readonly string[];
  /** Files whose digests the marker holds. */
  readonly sealed: readonly string[];
  /** 'results' */
  readonly what: string;
  /** What folders are told apart by: 'scenario'. */
  readonly by: string;
  /** Whether a sealed file that was changed since is taken for somebody's work. */
  readonly edited: boolean;
}

const markerSchema = z.object({
  format: z.literal(1),
  jambeam: z.string().max(40),
  /** Tells scenarios apart without holding a path. */
  scenario: z.string().max(64),
  /** Digests by file name. */
  sha256: z.record(z.string().max(64), z.string().max(64)),
});
export type Marker = z.infer<typeof markerSchema>;

/** Whose folder it is: a scenario's, or that of a part of it. */
export interface Owner {
  readonly scenarioFile: string;
  readonly part?: string;
}

export class OutFolder {
  private constructor(
    private readonly kind: FolderKind,
    readonly out: string,
    /** Where to write: beside `out` if that is new, inside it otherwise, so that renames stay on one disk. */
    readonly unfinished: string,
    private readonly isNew: boolean,
    private readonly scenario: string,
    /** Unfinished folders that a killed run left behind. */
    readonly leftovers: readonly string[],
  ) {}

  /**
   * Makes sure that files may go to `out`, before anything is worked out.
   *
   * @param force whether a folder that isn't the owner's own, or was changed, may be written into
   */
  static open(sort: FolderKind, out: string, owner: Owner, force: boolean): OutFolder {
    const { path, name, kind } = folderAt(out);
    const parent = dirname(path);
    if (kind === 'nothing' && (kindOf(parent) === 'nothing' || kindOf(realParent(parent, name)) !== 'folder'))
      throw nothingToStandIn(out);
    const scenario = scenarioMark(path, owner);
    if (kind === 'folder') checkOurs(sort, path, name, scenario, force);

    const home = kind === 'nothing' ? parent : path;
    const prefix = kind === 'nothing' ? `.${basename(path)}.unfinished-` : '.unfinished-';
    const unfinished = join(home, prefix + randomUUID().slice(0, 8));
    return onDisk(`${name} can't be written`, () => {
      const leftovers = readdirSync(home).filter((entry) => entry.startsWith(prefix));
      mkdirSync(unfinished);
      return new OutFolder(
        sort,
        path,
        unfinished,
        kind === 'nothing',
        scenario,
        leftovers.map((entry) => join(home, entry)),
      );
    });
  }

  /** Puts the marker in and gives everything its final name. */
  finish(): void {
    onDisk(`${pathText(this.out)} can't be written`, () => {
      writeNew(join(this.unfinished, this.kind.marker), `${JSON.stringify(this.marker(), null, 2)}\n`);
      syncFolder(this.unfinished);
      if (this.isNew) renameSync(this.unfinished, this.out);
      else this.moveIn();
      syncFolder(dirname(this.out));
    });
  }

  /** Takes away what was written so far. */
  discard(): void {
    rmSync(this.unfinished, { recursive: true, force: true });
  }

  /** File by file into a folder that stays; renaming onto a link replaces the link. The marker comes last. */
  private moveIn(): void {
    const { marker, files } = this.kind;
    const written = readdirSync(this.unfinished).filter((name) => name !== marker);
    for (const name of written) renameSync(join(this.unfinished, name), join(this.out, name));
    for (const stale of files.filter((name) => !written.includes(name))) rmSync(join(this.out, stale), { force: true });
    renameSync(join(this.unfinished, marker), join(this.out, marker));
    rmdirSync(this.unfinished);
    syncFolder(this.out);
  }

  private marker(): Marker {
    const digest = (name: string) => [name, sha256(readFileSync(join(this.unfinished, name)))] as const;
    return markerSchema.parse({
      format: 1,
      jambeam: VERSION,
      scenario: this.scenario,
      // Not every run has all: a log replayed without truth has no score.
      sha256: Object.fromEntries(
        this.kind.sealed.filter((name) => existsSync(join(this.unfinished, name))).map(digest),
      ),
    });
  }
}

/** What is at the place of `--out`. @throws {UserProblem} when no folder can be there */
export function folderAt(out: string): {
  readonly path: string;
  readonly name: string;
  readonly kind: 'folder' | 'nothing';
} {
  if (out === '') throw new UserProblem('--out: expected a folder, found nothing');
  const path = resolve(out);
  const name = pathText(out);
  const kind = kindOf(path);
  if (kind === 'link') throw new UserProblem(`${name} is a link`, 'name the folder itself with --out');
  if (kind === 'file' || kind === 'other') throw new UserProblem(`${name}: expected a folder, found a file`);
  return { path, name, kind };
}

function checkOurs(kind: FolderKind, path: string, name: string, scenario: string, force: boolean): void {
  const entries = onDisk(`${name} can't be read`, () => readdirSync(path));
  for (const file of [kind.marker, ...kind.files].filter((file) => entries.includes(file)))
    if (kindOf(join(path, file)) !== 'file')
      throw new UserProblem(
        `${pathText(join(name, file))} is a link or a folder, not a file`,
        'take it away, or choose another folder with --out',
      );
  if (force || entries.every((entry) => entry.startsWith('.unfinished-'))) return;
  const { what, by } = kind;
  const other = `choose another with --out, or write into it with --force; files that are no ${what} stay as they are`;
  const marker = entries.includes(kind.marker) ? readMarker(kind, path) : undefined;
  if (marker === undefined) throw new UserProblem(`${name} is there already and holds no ${what} of jambeam`, other);
  if (marker.scenario !== scenario) throw new UserProblem(`${name} holds the ${what} of another ${by}`, other);
  if (!kind.edited) return;
  const changed = kind.sealed.filter(
    (file) => entries.includes(file) && sha256(readFileSync(join(path, file))) !== marker.sha256[file],
  );
  if (changed.length > 0)
    throw new UserProblem(
      `${name} holds ${changed.join(', ')}, changed since, and it may be your work: nothing was written`,
      'choose another with --out, or write over it with --force',
    );
}

/** The marker of a folder; undefined when there is none or it isn't one. */
export function readMarker(kind: FolderKind, folder: string): Marker | undefined {
  const file = join(folder, kind.marker);
  if (kindOf(file) !== 'file') return undefined;
  return markerSchema.safeParse(jsonOrNothing(readText(file, 'a marker file'))).data;
}

/** The same for one scenario and folder wherever both are moved together; says nothing of where they are. */
function scenarioMark(out: string, { scenarioFile, part }: Owner): string {
  const parent = realParent(dirname(out), pathText(out));
  const way = relative(join(parent, basename(out)), realpathSync(scenarioFile));
  return sha256(part === undefined ? way : `${way}\0${part}`).slice(0, 16);
}

function realParent(parent: string, name: string): string {
  return onDisk(`${name} can't be made: its folder ${pathText(basename(parent))}`, () => realpathSync(parent));
}
