/** What a module threw, as `file:line:column: message`, without a stack trace. */
import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { printable } from '../engine/printable.js';
import type { ModuleCode } from './code.js';
import { CodeProblem, shownText } from './code-problem.js';

/** @param during `in step, at 12.5 s of the clock, door front` */
export function moduleProblem(error: unknown, code: ModuleCode, during: string): CodeProblem {
  if (error instanceof CodeProblem) return error;
  const message = messageOf(error);
  const place = syntaxPlace(message) ?? importPlace(message) ?? stackPlace(error);
  const where = place ?? shownText(code.shown);
  const text = message
    .replace(/^ParseError:\s*/, 'this is no valid TypeScript or JavaScript: ')
    .split('\n')[0]!
    .trim();
  return new CodeProblem(`${where}: ${printable(text, 300)}\n  ${during}`, hintOf(message), place !== undefined);
}

function messageOf(error: unknown): string {
  if (!(error instanceof Error)) return `it threw ${printable(String(error), 100)}, which is no Error`;
  return error.message === '' ? error.name : error.message;
}

function hintOf(message: string): string | undefined {
  if (message.startsWith('Cannot find module'))
    return 'imports are found from the file that names them; packages are not installed by jambeam';
  return undefined;
}

/** The loader tells the place of a syntax error below its message. */
function syntaxPlace(message: string): string | undefined {
  const [, path, line, column] = /^ParseError:[\s\S]*\n\s*(\/.+|[A-Za-z]:\\.+):(\d+):(\d+)\s*$/.exec(message) ?? [];
  return path === undefined ? undefined : placeText(path, line!, Number(column) + 1);
}

/** An import that leads nowhere: where it is written, in the first of the files that lead there. */
function importPlace(message: string): string | undefined {
  const [, specifier, path] = /^Cannot find module '(.+)'\nRequire stack:\n- (.+)/.exec(message) ?? [];
  if (specifier === undefined || path === undefined || isOurs(path)) return undefined;
  const lines = readFileSync(path, 'utf8').split('\n');
  const line = lines.findIndex((text) => text.includes(specifier));
  return line < 0 ? undefined : placeText(path, String(line + 1), lines[line]!.indexOf(specifier) + 1);
}

/** The innermost place in code of the user's own: the first that is no part of Node or of an installed package. */
function stackPlace(error: unknown): string | undefined {
  const stack = error instanceof Error ? (error.stack ?? '') : '';
  for (const line of stack.split('\n')) {
    const [, path, row, column] =
      /^\s+at (?:.* \(|async )?((?:file:\/\/)?(?:\/|[A-Za-z]:[\\/]).+?):(\d+):(\d+)\)?$/.exec(line) ?? [];
    if (path === undefined || row === undefined || column === undefined) continue;
    const file = path.startsWith('file://') ? fileURLToPath(path) : path;
    if (!isOurs(file)) return placeText(file, row, Number(column));
  }
  return undefined;
}

const OURS = fileURLToPath(new URL('..', import.meta.url));

function isOurs(file: string): boolean {
  return file.startsWith(OURS) || /[\\/]node_modules[\\/]/.test(file);
}

function placeText(path: string, line: string, column: number): string {
  const near = relative(process.cwd(), path);
  return `${shownText(near.startsWith('..') ? path : near)}:${line}:${column}`;
}
