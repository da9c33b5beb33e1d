/** `jambeam report` of a study: of a finished one from study.json, of an unfinished one from the cells that are done. */
import { join } from 'node:path';
import { jsonOrNothing } from '../../engine/json.js';
import { pageScripts } from '../page-scripts.js';
import { renderStudyReport } from '../../report/study/report.js';
import { type Heading, headed } from '../../scenario/heading.js';
import { type StudySummary, studySummarySchema } from '../../study/summary-schema.js';
import { summaryFits } from '../../study/summary-fit.js';
import { summarise } from '../../study/summary.js';
import { kindOf, readText, refuseAllButFiles, replaceFile } from '../files.js';
import type { Io } from '../io.js';
import { UserProblem, pathText } from '../problem.js';
import { doneWords } from './finish.js';
import { lookAt } from './study-folder.js';

/** A text of this engine's may be half a gigabyte at most, its marks counted in. */
const MOST_BYTES = 256 * 1_048_576;

/** How the page is to be. */
export interface StudyPage {
  /** In place of the study's own. */
  readonly heading: Heading;
  readonly static?: boolean | undefined;
}

export async function studyReportCommand(folder: string, page: StudyPage, io: Io): Promise<void> {
  const summary = summaryOf(folder);
  const file = join(folder, 'report.html');
  refuseAllButFiles(file);
  replaceFile(file, await renderStudyReport(headed(summary, page.heading), pageScripts(page.static)));
  const done = doneWords(summary.cells, summary.replicates.fixed);
  if (!summary.finished) io.out(`The study is not finished: ${done} replicates are done\n`);
  io.out(`Wrote ${io.paint.bold(pathText(file))}\n`);
}

/** What a study has found out so far. */
export function summaryOf(folder: string): StudySummary {
  const file = join(folder, 'study.json');
  if (kindOf(file) === 'file') {
    const { data } = studySummarySchema.safeParse(jsonOrNothing(readText(file, 'the summary of a study', MOST_BYTES)));
    if (data && summaryFits(data)) return data;
    throw new UserProblem(
      `${pathText(file)} is not as the study wrote it`,
      'take it away; `jambeam study … --resume` writes it again',
    );
  }
  const { standing, journal } = lookAt(folder);
  try {
    return summarise(standing, journal);
  } finally {
    journal.close();
  }
}
