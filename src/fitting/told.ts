/** Issues of a bench's CSV, with their place. */
import type { Issue } from '../scenario/issue.js';

export type Told = (line: number, column: number, message: string, hint?: string) => Issue;

export function told(file: string): Told {
  return (line, column, message, hint) => ({
    place: { file, line, column },
    path: '',
    problem: hint === undefined ? { code: 'other', message } : { code: 'other', message, hint },
  });
}
