/** `jambeam report`: report.html of a finished run, written again; of several runs a comparison. Never reads the CSV files. */
import { join } from 'node:path';
import { renderReport } from '../report/report.js';
import { formatIssue } from '../scenario/explain.js';
import { allFigures } from '../simulate/sources.js';
import { VERSION } from '../simulate/version.js';
import { refuseAllButFiles, replaceFile } from './files.js';
import { type HeadingOptions, headingOf } from './heading-options.js';
import type { Io } from './io.js';
import { pageScripts } from './page-scripts.js';
import { UserProblem, pathText } from './problem.js';
import { readRun } from './read-run.js';
import { isStudyFolder } from './study/is-study-folder.js';

export interface ReportOptions extends HeadingOptions {
  readonly static?: boolean;
  readonly out?: string;
  readonly force?: boolean;
}

/** @param folders one, whose report.html is written again; or several runs, which are compared */
export async function reportCommand(folders: readonly string[], options: ReportOptions, io: Io): Promise<void> {
  const { heading, issues } = headingOf(options);
  if (issues.length > 0) throw new UserProblem(issues.map(formatIssue).join('\n'));
  const page = { heading, static: options.static };
  const [folder, ...others] = folders as readonly [string, ...string[]];
  if (others.length > 0) return (await import('./compare.js')).compareCommand(folders, { ...page, ...options }, io);
  if (options.out !== undefined)
    throw new UserProblem(
      '--out is for several runs: the report of one goes into its own folder',
      'leave --out away, or name the run to compare it with as well',
    );
  if (isStudyFolder(folder)) return (await import('./study/study-report.js')).studyReportCommand(folder, page, io);
  const run = readRun(folder);
  const { jambeam } = run.metrics;
  if (jambeam !== VERSION)
    io.err(`note: the run was made by jambeam ${pathText(jambeam)}; the sources listed are those of ${VERSION}\n`);
  const file = join(folder, 'report.html');
  refuseAllButFiles(file);
  replaceFile(
    file,
    await renderReport({ ...run, heading, ...pageScripts(options.static), sources: allFigures(), version: jambeam }),
  );
  io.out(`Wrote ${io.paint.bold(pathText(file))}\n`);
}
