/** The results of a study, written when all of its cells are done. */
import { mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pageScripts } from '../page-scripts.js';
import { type StudyReportOptions, renderStudyReport } from '../../report/study/report.js';
import { studySummaryText } from '../../report/study/summary-text.js';
import { doorTable, houseTable } from '../../study/columns.js';
import { eachCell } from '../../study/each-cell.js';
import type { Standing } from '../../study/run/standing.js';
import type { Journal } from '../../study/store/journal.js';
import { summarise } from '../../study/summary.js';
import type { StudySummary } from '../../study/summary-schema.js';
import { syncFolder, writeNew } from '../files.js';
import type { Io } from '../io.js';
import { jsonText } from '../io.js';
import { onDisk, pathText } from '../problem.js';
import { ResultsFiles } from './results-files.js';
import type { StudyFolder } from './study-folder.js';

/** Exit code: some designs failed. */
const SOME_FAILED = 3;

/** Writes the results of a study whose cells are all done, and says what it came to. */
export async function conclude(
  out: string,
  folder: StudyFolder,
  standing: Standing,
  io: Io,
  options: { readonly json?: boolean | undefined; readonly static?: boolean | undefined } = {},
): Promise<void> {
  const page = pageScripts(options.static);
  const summary = await writeResults(folder.path, standing, folder.journal, page);
  io.out(options.json === true ? jsonText(summary) : studySummaryText(summary, pathText(join(out, 'report.html'))));
  tellFailed(standing);
}

/** Sets the exit code where designs failed. */
export function tellFailed({ designs }: Standing): void {
  if (designs.some(({ ended }) => ended === 'failed')) process.exitCode = SOME_FAILED;
}

/** `34 of at most 200`: replicates that are done. */
export function doneWords({ done, most }: Standing['cells'], fixed: number | null): string {
  return `${done} of ${fixed === null ? 'at most ' : ''}${most}`;
}

/** Written aside, synced, and only then given their names, study.json last: a study is finished when it is there. */
async function writeResults(
  folder: string,
  standing: Standing,
  journal: Journal,
  page: StudyReportOptions,
): Promise<StudySummary> {
  const unfinished = join(folder, '.unfinished-results');
  const summary = summarise(standing, journal);
  const report = await renderStudyReport(summary, page);
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
