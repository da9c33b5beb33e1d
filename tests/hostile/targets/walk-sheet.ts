/** A filled sheet of a walk test. */
import { readText } from '../../../src/cli/files.js';
import { rowsProblem } from '../../../src/cli/issues-problem.js';
import { readSheet } from '../../../src/cli/walk-sheet-read.js';
import { sheetCsv } from '../../../src/cli/walk-sheet-write.js';
import type { Target } from '../target.js';

const DOOR = 'front';
const LOGIC = 'four-level';
const row = (number: number, filled: string): string =>
  `${number},${DOOR},${LOGIC},adult,through,forward,,,no,1,0,${filled}`;

export const walkSheet: Target = {
  name: 'walk-sheet',
  file: 'walks.csv',
  form: null,
  placed: true,
  share: 5,
  seeds: () => {
    const header = sheetCsv([], DOOR, LOGIC).trimEnd();
    const filled = ['12:00:05,12:00:09,1,0,', ',,0,1,the dog', '2024-05-01T10:00:00Z,,,,', ',,,,'];
    return [Buffer.from(`${header}\n${filled.map((cells, i) => row(i + 1, cells)).join('\n')}\n`)];
  },
  take({ path }) {
    const { issues } = readSheet(readText(path, 'a walk sheet in CSV', 8 * 1_048_576), path, {
      door: DOOR,
      logic: LOGIC,
    });
    if (issues.length > 0) throw rowsProblem(path, issues);
  },
};
