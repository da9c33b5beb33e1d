/** What is wrong with a CSV that somebody wrote, a bench, a walk sheet or a log, told with its place. */
import type { Issue } from '../scenario/issue.js';

export type Told = (line: number, column: number, message: string, hint?: string) => Issue;

/** @returns what makes an issue of a place in this file and of words */
export function told(file: string): Told {
  return (line, column, message, hint) => ({
    place: { file, line, column },
    path: '',
    problem: hint === undefined ? { code: 'other', message } : { code: 'other', message, hint },
  });
}
