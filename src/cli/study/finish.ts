/** The results of a study, written when all of its cells are done. */
import { mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { renderStudyReport } from '../../report/study/report.js';
import { doorTable, houseTable } from '../../study/columns.js';
import { eachCell } from '../../study/each-cell.js';
import type { Standing } from '../../study/run/standing.js';
import type { Journal } from '../../study/store/journal.js';
import { summarise } from '../../study/summary.js';
import type { StudySummary } from '../../study/summary-schema.js';
import { syncFolder, writeNew } from '../files.js';
import { onDisk, pathText } from '../problem.js';
import { ResultsFiles } from './results-files.js';

/** Written aside, synced, and only then given their names, study.json last: a study is finished when it is there. */
export async function writeResults(folder: string, standing: Standing, journal: Journal): Promise<StudySummary> {
  const unfinished = join(folder, '.unfinished-results');
  const summary = summarise(standing, journal);
  const report = await renderStudyReport(summary);
  return onDisk(`the results in ${pathText(folder)} can't be written`, () => {
    rmSync(unfinished, { recursive: true, force: true });
    mkdirSync(unfinished);
    try {
      const tables = [
        { table: houseTable(standing.plan), name: 'results' },
        { table: doorTable(standing.plan), name: 'results-doors' },
      ].map(({ table, name }) => ({ table, files: new ResultsFiles(unfinished, name, table.columns) }));
      eachCell(standing, journal, ({ planned }, replicate, cell) => {
        const { effort } = summary.designs[planned.number - 1]!;
        for (const { table, files } of tables)
          for (const row of table.rows(planned, replicate, cell, effort)) files.put(row);
      });
      for (const { files } of tables) files.close();
      writeNew(join(unfinished, 'report.html'), report);
      writeNew(join(unfinished, 'study.json'), `${JSON.stringify(summary)}\n`);
      const written = readdirSync(unfinished).sort((a, b) => Number(a === 'study.json') - Number(b === 'study.json'));
      for (const name of written) renameSync(join(unfinished, name), join(folder, name));
      syncFolder(folder);
    } finally {
      rmSync(unfinished, { recursive: true, force: true });
    }
    return summary;
  });
}
