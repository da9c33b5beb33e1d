/** Where something new is to go: looked at before anything is worked out, every refusal in words. */
import { mkdirSync, rmSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { kindOf, replaceFiles } from './files.js';
import { UserProblem, onDisk, pathText } from './problem.js';

/** What is there already; a folder to make needs one to stand in. @throws {UserProblem} when no folder can be there */
export function kindForFolder(folder: string): 'folder' | 'nothing' {
  const name = pathText(folder);
  const kind = kindOf(resolve(folder));
  if (kind === 'link') throw new UserProblem(`${name} is a link`, 'name the folder itself');
  if (kind === 'file' || kind === 'other') throw new UserProblem(`${name}: expected a folder, found a file`);
  if (kind === 'nothing' && kindOf(dirname(resolve(folder))) === 'nothing') throw nothingToStandIn(folder);
  return kind;
}

/** The refusal of a file or folder whose own folder isn't there. @param said what its message begins with */
export function nothingToStandIn(path: string, said = ''): UserProblem {
  const [name, folder] = [path, dirname(path)].map(pathText);
  return new UserProblem(`${said}${name} can't be made: there is no folder ${folder}`, 'make it first');
}

/** Files by their names into a folder that {@link kindForFolder} let pass; if they can't be written, one made for them is taken away. */
export function writeInto(folder: string, files: Readonly<Record<string, string>>): void {
  const isNew = kindOf(resolve(folder)) === 'nothing';
  if (isNew) onDisk(`${pathText(folder)} can't be made`, () => mkdirSync(folder));
  try {
    replaceFiles(Object.entries(files).map(([file, text]) => [join(folder, file), text]));
  } catch (error) {
    if (isNew) rmSync(folder, { recursive: true, force: true });
    throw error;
  }
}

/** The same of a file that an option names. @throws {UserProblem} when no file can be there */
export function kindForFile(option: string, file: string): 'file' | 'nothing' {
  const name = pathText(file);
  const kind = kindOf(file);
  if (kind === 'file') return kind;
  if (kind === 'link') throw new UserProblem(`${option}: ${name} is a link`, 'name the file itself');
  if (kind !== 'nothing') throw new UserProblem(`${option}: expected a file, found a folder: ${name}`);
  if (kindOf(resolve(dirname(file))) === 'nothing') throw nothingToStandIn(file, `${option}: `);
  return kind;
}
