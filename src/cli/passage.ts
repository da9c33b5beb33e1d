/** `jambeam passage`: one walk through a doorway, instant by instant. */
import { MIX_KINDS, type MixKind } from '../agents/schema.js';
import { nearest } from '../engine/nearest.js';
import { quote } from '../engine/printable.js';
import type { Design } from '../scenario/schema.js';
import { tracePassage } from '../simulate/passage-trace.js';
import { NoSuchPassage, type PassageChoice, type PassageTrace } from '../simulate/traced.js';
import { kindOf } from './files.js';
import { inWorker } from './in-worker.js';
import type { Io } from './io.js';
import { jsonText } from './io.js';
import { codeOf, givenLogics } from './logic-options.js';
import { DIRECTIONS } from './option-values.js';
import type { PassageOfRunOptions } from './passage-of-run.js';
import type { PassageJob } from './passage-worker.js';
import { passageText } from './passage-text.js';
import { UserProblem, pathText } from './problem.js';
import { loadScenario, printCautions } from './scenario-file.js';
import { typedNumber } from './typed-number.js';

const PASSAGE_WORKER = new URL('./passage-worker.js', import.meta.url);

export interface PassageOptions extends PassageOfRunOptions {
  readonly who?: string;
  readonly kind?: string;
  readonly direction?: string;
  readonly set?: readonly string[];
}

/** @throws {UserProblem} when the scenario is not right, or there is no such door, walker, kind or number */
export function passageCommand(file: string, options: PassageOptions, io: Io): void | Promise<void> {
  if (kindOf(file) === 'folder') return ofRun(file, options, io);
  const given = ['replicate', 'of', 'only', 'limit', 'out'].find((option) => option in options);
  if (given !== undefined)
    throw new UserProblem(
      `--${given} is for visits of a finished run`,
      `${pathText(file)} is no folder: give the folder of a run instead of its scenario`,
    );
  const logics = givenLogics(options);
  const { design, cautions } = loadScenario(file, options.set ?? [], logics);
  printCautions(cautions, io);
  const choice = choiceOf(options);
  const tell = (trace: PassageTrace): void =>
    io.out(options.json === true ? jsonText(trace) : passageText(trace, io.paint));
  const code = codeOf(design, logics);
  if (!code) return tell(traceOf(design, choice));
  // Code of the user's own may never return: it goes on a thread that can be ended.
  const job: PassageJob = { design, choice, code, what: 'the passage' };
  return inWorker<PassageTrace>(PASSAGE_WORKER, job, { io, doors: design.doors.map(({ name }) => name) }).then(tell);
}

async function ofRun(folder: string, options: PassageOptions, io: Io): Promise<void> {
  const given = (['who', 'kind', 'direction', 'set'] as const).find((option) => options[option] !== undefined);
  if (given !== undefined)
    throw new UserProblem(
      `--${given} is for a walk made up from a scenario`,
      `${pathText(folder)} is the folder of a run`,
    );
  await (await import('./passage-of-run.js')).passageOfRunCommand(folder, options, io);
}

function traceOf(design: Design, choice: PassageChoice): PassageTrace {
  try {
    return tracePassage(design, choice);
  } catch (error) {
    if (error instanceof NoSuchPassage) throw new UserProblem(error.message, error.hint);
    throw error;
  }
}

function choiceOf(options: PassageOptions): PassageChoice {
  const { who = 'adult', door, number = '1' } = options;
  return {
    who,
    kind: oneOf('--kind', options.kind ?? 'through', MIX_KINDS) as MixKind,
    direction: oneOf('--direction', options.direction ?? 'forward', DIRECTIONS),
    ...(door === undefined ? {} : { door }),
    number: typedNumber(number),
  };
}

function oneOf<T extends string>(option: string, found: string, known: readonly T[]): T {
  const one = known.find((word) => word === found);
  if (one !== undefined) return one;
  const close = nearest(found, known);
  throw new UserProblem(
    `${option}: expected one of ${known.join(', ')}, found ${quote(found)}`,
    close && `did you mean ${quote(close)}?`,
  );
}
