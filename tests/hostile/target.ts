/** One kind of file that comes from outside, and the way the program takes it. */
import type { TreeForm } from './trees.js';

export interface Target {
  readonly name: string;
  /** What the file is called in the folder. */
  readonly file: string;
  /** How its maps and lists are taken apart; null for what has none. */
  readonly form: TreeForm | null;
  /** Whether each refusal says line and column, as editors look for it. */
  readonly placed: boolean;
  /** Inputs it gets for each one of the scenario's: more where they are quick, fewer where a valid file costs time. */
  readonly share: number;
  /** Valid files. */
  seeds(): readonly Buffer[];
  /** Takes the file as a command does. Returns, or throws what the program tells its users. */
  take(at: Taking): unknown;
}

export interface Taking {
  /** A folder of its own, empty but for the file and what {@link Target.take} has put there before. */
  readonly folder: string;
  readonly path: string;
  readonly bytes: Buffer;
}
