/** Code of the user's own as a run is started with it: plain data, to be handed to the thread that simulates. */
import { SHARED_BYTES } from './heart.js';

export interface ModuleCode {
  readonly use: 'module';
  /** The logic's name in the design. */
  readonly name: string;
  /** Where it is, from the root of the disk. */
  readonly path: string;
  /** The file as the user named it. */
  readonly shown: string;
  /** What its digest must be, if it must be one. */
  readonly sha256?: string | undefined;
}

export interface ProcessCode {
  readonly use: 'process';
  readonly name: string;
  /** The program and its arguments. */
  readonly words: readonly string[];
  /** The command as the user wrote it. */
  readonly shown: string;
  readonly sha256?: string | undefined;
}

export type Code = ModuleCode | ProcessCode;

export interface CodeJob {
  readonly codes: readonly Code[];
  /** How long a step of a module, or an exchange with a program, may take, seconds. */
  readonly limit_s: number;
  /** Where the simulating thread leaves word of what it is in, and which programs run (heart.ts). */
  readonly shared: SharedArrayBuffer;
}

/** How long a step or an exchange may take where nobody says otherwise. */
export const LIMIT_S = 10;
/** Labels of states are cut to so many characters. */
export const LONGEST_LABEL = 60;

export function codeJob(codes: readonly Code[], limit_s = LIMIT_S): CodeJob {
  return { codes, limit_s, shared: new SharedArrayBuffer(SHARED_BYTES) };
}
