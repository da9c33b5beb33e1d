/** `jambeam passage`: one walk through a doorway, instant by instant. */
import { MIX_KINDS } from '../agents/schema.js';
import type { MixKind } from '../agents/schema.js';
import { nearest } from '../engine/nearest.js';
import { quote } from '../engine/printable.js';
import type { PassageTrace } from '../simulate/passage-trace.js';
import { NoSuchPassage, tracePassage } from '../simulate/passage-trace.js';
import type { Design } from '../scenario/schema.js';
import type { Io } from './io.js';
import { jsonText } from './io.js';
import { passageText } from './passage-text.js';
import { UserProblem } from './problem.js';
import { loadScenario, printCautions } from './scenario-file.js';

export interface PassageOptions {
  readonly who?: string;
  readonly kind?: string;
  readonly door?: string;
  readonly direction?: string;
  readonly number?: string;
  readonly set?: readonly string[];
  readonly json?: boolean;
}

/** @throws {UserProblem} when the scenario is not right, or there is no such door, walker, kind or number */
export function passageCommand(file: string, options: PassageOptions, io: Io): void {
  const { design, cautions } = loadScenario(file, options.set ?? []);
  printCautions(cautions, io);
  const trace = traceOf(design, options);
  io.out(options.json === true ? jsonText(trace) : passageText(trace, io.paint));
}

function traceOf(design: Design, options: PassageOptions): PassageTrace {
  const { who = 'adult', door, number = '1' } = options;
  try {
    return tracePassage(design, {
      who,
      kind: oneOf('--kind', options.kind ?? 'through', MIX_KINDS) as MixKind,
      direction: oneOf('--direction', options.direction ?? 'forward', ['forward', 'backward'] as const),
      ...(door === undefined ? {} : { door }),
      number: number.trim() === '' ? Number.NaN : Number(number),
    });
  } catch (error) {
    if (error instanceof NoSuchPassage) throw new UserProblem(error.message, error.hint);
    throw error;
  }
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
