/** A controller's own log of tallies, for a walk test. */
import { readText } from '../../../src/cli/files.js';
import { rowsProblem } from '../../../src/cli/issues-problem.js';
import { talliesOfLog } from '../../../src/cli/tally-log.js';
import { smallRun } from '../material.js';
import type { Target } from '../target.js';

export const tallyLog: Target = {
  name: 'tally-log',
  file: 'tallies.csv',
  form: null,
  placed: true,
  share: 5,
  seeds: () => [
    smallRun().texts.get('tallies.csv')!,
    Buffer.from('time;direction\n19:04:07;forward\n19:05:00,5;backward\n'),
  ],
  take({ path }) {
    const text = readText(path, 'a log of tallies in CSV', 64 * 1_048_576);
    const { issues } = talliesOfLog(text.split(/\r\n|\n|\r/), path, { door: 'front', logic: 'four-level' });
    if (issues.length > 0) throw rowsProblem(path, issues);
  },
};
