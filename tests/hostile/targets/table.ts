/** A logic table, as the scenario that names it has it read. */
import { compileTable } from '../../../src/counter/table/compile.js';
import { formatIssue } from '../../../src/scenario/explain.js';
import { readText } from '../../../src/cli/files.js';
import { UserProblem } from '../../../src/cli/problem.js';
import { tableTexts } from '../material.js';
import type { Target } from '../target.js';

export const table: Target = {
  name: 'table',
  file: 'table.yaml',
  form: 'yaml',
  placed: true,
  share: 2,
  seeds: tableTexts,
  take({ path }) {
    const { issues } = compileTable(readText(path, 'a logic table in YAML'), path);
    if (issues.length === 0) return;
    const words = issues.map(({ file, line, column, path: key, message, hint }) =>
      formatIssue({ place: { file, line, column }, path: key, problem: { code: 'table_error', message, hint } }),
    );
    throw new UserProblem(words.join('\n'), undefined, true);
  },
};
