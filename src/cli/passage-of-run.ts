/** `jambeam passage DIR`: visits of a finished run as space–time pictures. */
import { mkdirSync } from 'node:fs';
import { extname, join } from 'node:path';
import { quote } from '../engine/printable.js';
import { captionOf } from '../report/picture/caption.js';
import { pictureTitle } from '../report/picture/draw.js';
import { pictureFile } from '../report/picture/file.js';
import { oneIn } from '../report/who-words.js';
import { bare } from '../report/words.js';
import type { Design } from '../scenario/schema.js';
import type { Picture } from '../score/pictures.js';
import { VERSION } from '../simulate/version.js';
import { kindOf, replaceFile } from './files.js';
import { inWorker } from './in-worker.js';
import type { Io } from './io.js';
import { jsonText } from './io.js';
import { folded } from './lines.js';
import type { LogicOptions } from './logic-options.js';
import { codeOf, givenLogics } from './logic-options.js';
import { namedOne } from './named-one.js';
import type { PicturesJob } from './pictures-worker.js';
import { UserProblem, onDisk, pathText } from './problem.js';
import { readRun } from './read-run.js';
import { typedNumber } from './typed-number.js';

const WORKER = new URL('./pictures-worker.js', import.meta.url);
/** More pictures nobody looks at. */
const MOST = 100;
const USUAL = 12;

/** Options as typed. */
export interface PassageOfRunOptions extends LogicOptions {
  readonly door?: string;
  readonly number?: string;
  readonly replicate?: string;
  readonly of?: string;
  readonly only?: string;
  readonly limit?: string;
  readonly out?: string;
  readonly json?: boolean;
}

/** @throws {UserProblem} when the folder is no run, or it has no such visit */
export async function passageOfRunCommand(folder: string, options: PassageOfRunOptions, io: Io): Promise<void> {
  const { design, metrics } = readRun(folder);
  if (metrics.jambeam !== VERSION)
    throw new UserProblem(
      `${pathText(folder)} was made by jambeam ${pathText(metrics.jambeam)}, and this is ${VERSION}: the same people may not come again`,
      'run the scenario again',
    );
  const only = onlyOf(options);
  const wanted = only ? wholeNumber('--limit', options.limit ?? String(USUAL), 1, MOST) : visitOf(design, options);
  const out = outOf(options, only);
  const code = codeOf(design, givenLogics(options));
  const job: PicturesJob = { design, wanted, code, what: 'the pictures' };
  const pictures = await inWorker<Picture[]>(WORKER, job, { io, doors: design.doors.map(({ name }) => name) });
  if (options.json === true) {
    io.out(jsonText(pictures));
    return;
  }
  if (pictures.length === 0) {
    io.out(`Nothing went wrong by the logic ${quote(design.logics[0]!.name)} in the replicates that were looked at.\n`);
    return;
  }
  const say = oneIn(design);
  // Only now: what is stopped or refused before leaves no empty folder.
  if (only && kindOf(out) === 'nothing') onDisk(`${pathText(out)} can't be made`, () => mkdirSync(out));
  for (const [i, picture] of pictures.entries()) {
    const file = only ? join(out, `picture-${String(i + 1).padStart(2, '0')}.svg`) : out;
    replaceFile(file, pictureFile(design, picture));
    io.out(
      `${io.paint.bold(bare(pictureTitle(picture)))}\n${folded(bare(captionOf(picture, say)), '  ')}  ${pathText(file)}\n`,
    );
  }
}

function onlyOf(options: PassageOfRunOptions): boolean {
  const { only, number, limit } = options;
  if (only !== undefined && only !== 'wrong')
    throw new UserProblem(`--only: expected wrong, found ${quote(only)}`, 'the most telling visits that went wrong');
  if (only !== undefined && number !== undefined)
    throw new UserProblem('--only and --number: one asks for many visits, the other for one', 'give one of them');
  const narrowing = (['door', 'replicate', 'of'] as const).find((option) => options[option] !== undefined);
  if (only !== undefined && narrowing !== undefined)
    throw new UserProblem(
      `--only and --${narrowing}: the most telling visits are those of the first logic, at all doors, in the first replicates`,
      `leave --${narrowing} out, or ask for one visit with --number`,
    );
  if (only === undefined && limit !== undefined)
    throw new UserProblem('--limit says how many with --only wrong', 'add --only wrong');
  return only !== undefined;
}

function visitOf(design: Design, options: PassageOfRunOptions): Exclude<PicturesJob['wanted'], number> {
  if (options.number === undefined)
    throw new UserProblem(
      'which visit of the run?',
      '--number N as in passages.csv, with --replicate R (1 unless given), or --only wrong',
    );
  return {
    number: wholeNumber('--number', options.number, 1, 1e9),
    replicate: wholeNumber('--replicate', options.replicate ?? '1', 1, design.replicates),
    logic: options.of === undefined ? 0 : design.logics.indexOf(namedOne('--of', '', '', design.logics, options.of)),
    door:
      options.door === undefined
        ? undefined
        : design.doors.indexOf(namedOne('--door', '', '', design.doors, options.door)),
  };
}

function wholeNumber(option: string, text: string, least: number, most: number): number {
  const value = typedNumber(text);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new UserProblem(`${option}: expected a whole number from ${least} to ${most}, found ${quote(text)}`);
}

/** A file for one picture, a folder for many. */
function outOf({ out }: PassageOfRunOptions, many: boolean): string {
  if (!many) {
    const file = out ?? 'passage.svg';
    if (extname(file).toLowerCase() !== '.svg')
      throw new UserProblem(`--out: expected a file that ends in .svg, found ${pathText(file)}`);
    return file;
  }
  const folder = out ?? 'pictures';
  const kind = kindOf(folder);
  if (kind !== 'nothing' && kind !== 'folder')
    throw new UserProblem(`${pathText(folder)}: expected a folder, found a ${kind}`, 'choose another with --out');
  return folder;
}
