/** What is wrong with code of the user's own, in words for the user. */
import { printable } from '../engine/printable.js';

export class CodeProblem extends Error {
  override readonly name = 'CodeProblem';
  constructor(
    message: string,
    readonly hint?: string,
    /** Whether the message begins with `file:line:column`. */
    readonly placed = false,
  ) {
    super(message);
  }
}

/** A module's name or a command as it is printed. */
export function shownText(text: string): string {
  return printable(text, 300);
}

/** `at 12.5 s of the clock, door front`. */
export function whenAndWhere(time_us: number, door: string | undefined): string {
  const at = Number.isFinite(time_us) ? `at ${time_us / 1e6} s of the clock` : 'before the first input';
  return door === undefined ? at : `${at}, door ${printable(door)}`;
}
