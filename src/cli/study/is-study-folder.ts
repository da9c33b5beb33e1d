/** How the folder of a study is known, without all that it takes to read one. */
import { join } from 'node:path';
import { kindOf } from '../files.js';

export const MARKER = 'jambeam-study.json';

/** Whether a folder holds a study. */
export function isStudyFolder(folder: string): boolean {
  return kindOf(folder) === 'folder' && kindOf(join(folder, MARKER)) !== 'nothing';
}
