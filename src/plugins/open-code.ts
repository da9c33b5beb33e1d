/**
 * Code of the user's own made ready in the thread that simulates: modules loaded, programs tried once at each door.
 *
 *     const code = await openCode(job);
 *     try { simulate(design, sinks, code.outside); } finally { code.close(); }
 *
 * A module is trusted code: it runs with the user's rights, in this process.
 */
import { LogicError } from '../counter/host-check.js';
import type { AnyLogic } from '../counter/host.js';
import type { DoorAbout, OutsideLogics } from '../counter/make-logic.js';
import { Bridge } from './bridge.js';
import type { Code, CodeJob, ProcessCode } from './code.js';
import { CodeProblem, shownText, whenAndWhere } from './code-problem.js';
import { digestOf } from './digest.js';
import { type ProcessParts, greet } from './greet.js';
import { Heart } from './heart.js';
import { loadModule } from './load-module.js';
import { type LoadedModule, moduleLogic } from './module-logic.js';
import { ProcessHost } from './process-host.js';
import type { ProgramAbout } from './protocol.js';

const LONGEST_SENTENCE = 500;

/** Which code it was, and what it says of itself. */
export interface RecordedCode {
  /** Where there are files to take it of. */
  readonly sha256?: string;
  readonly defeated_by?: string;
}

export interface OpenCode {
  readonly outside: OutsideLogics;
  /** What a design says of the code, by the logic's name. */
  readonly recorded: ReadonlyMap<string, RecordedCode>;
  /** Ends all programs. */
  close(): void;
}

/** @throws {CodeProblem} when a module can't be loaded or is no logic */
export async function openCode({ codes, limit_s, shared }: CodeJob): Promise<OpenCode> {
  const heart = new Heart(shared);
  const modules = new Map<string, LoadedModule>();
  const programs = new Map<string, ProcessCode>();
  for (const [index, code] of codes.entries()) {
    if (code.use === 'process') programs.set(code.name, code);
    else modules.set(code.name, { code, index, definition: await loadModule(code, index, heart), steps: 0 });
  }
  const bridge = programs.size > 0 ? new Bridge(limit_s, shared) : null;
  const abouts = new Map<string, ProgramAbout>();

  const programAt = (code: ProcessCode, door: DoorAbout): AnyLogic => {
    const parts: ProcessParts = { code, door, bridge: bridge!, limit_s };
    const key = JSON.stringify([code.name, door]);
    const about = abouts.get(key) ?? tried(parts);
    abouts.set(key, about);
    return {
      name: code.name,
      latency_us: about.latency_us,
      beams: door.beams.length,
      readings: about.readings,
      defeated_by: '',
      host: (hooks, from) => new ProcessHost(parts, about, hooks, from),
    };
  };

  return {
    outside(choice, door) {
      const module = modules.get(choice.name);
      if (module) return moduleLogic(module, door, heart);
      const program = programs.get(choice.name);
      if (program) return programAt(program, door);
      throw new CodeProblem(
        `the code of the logic ${shownText(choice.name)} is not at hand`,
        'name it with --logic or --logic-process',
      );
    },
    recorded: new Map(codes.map((code) => [code.name, recordOf(code, modules.get(code.name))])),
    close: () => bridge?.close(),
  };
}

function recordOf(code: Code, module: LoadedModule | undefined): RecordedCode {
  const sha256 = digestOf(code);
  if (code.sha256 !== undefined && sha256 !== code.sha256)
    throw new CodeProblem(
      `${shownText(code.shown)} is not what the run was made with: its SHA-256 is another`,
      'run the scenario again with it',
    );
  const defeated_by = module?.definition.defeated_by?.slice(0, LONGEST_SENTENCE);
  return { ...(sha256 !== undefined && { sha256 }), ...(defeated_by !== undefined && { defeated_by }) };
}

/** What a program says of itself, before it has to count. */
function tried(parts: ProcessParts): ProgramAbout {
  const { id, about } = greet(parts, { park: () => false });
  parts.bridge.end(id);
  return about;
}

/** A broken contract that the host of a logic found, as the user's problem if the logic is one of `codes`. */
export function codeProblemOf(error: unknown, codes: readonly Code[]): CodeProblem | null {
  if (error instanceof CodeProblem) return error;
  if (!(error instanceof LogicError)) return null;
  const code = codes.find(({ name }) => name === error.logic);
  return code
    ? new CodeProblem(`${shownText(code.shown)}: ${error.fault}\n  ${whenAndWhere(error.time_us, undefined)}`)
    : null;
}
