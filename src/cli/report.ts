/** `jambeam report`: report.html of a finished run, written again. Never reads the CSV files. */
import { join } from 'node:path';
import { renderReport } from '../report/report.js';
import { allFigures } from '../simulate/sources.js';
import { VERSION } from '../simulate/version.js';
import { refuseAllButFiles, replaceFile } from './files.js';
import type { Io } from './io.js';
import { pageScripts } from './page-scripts.js';
import { pathText } from './problem.js';
import { readRun } from './read-run.js';
import { isStudyFolder } from './study/is-study-folder.js';

export async function reportCommand(folder: string, io: Io): Promise<void> {
  if (isStudyFolder(folder)) return (await import('./study/study-report.js')).studyReportCommand(folder, io);
  const run = readRun(folder);
  const { jambeam } = run.metrics;
  if (jambeam !== VERSION)
    io.err(`note: the run was made by jambeam ${pathText(jambeam)}; the sources listed are those of ${VERSION}\n`);
  const file = join(folder, 'report.html');
  refuseAllButFiles(file);
  replaceFile(file, await renderReport({ ...run, sources: allFigures(), version: jambeam, scripts: pageScripts() }));
  io.out(`Wrote ${io.paint.bold(pathText(file))}\n`);
}
