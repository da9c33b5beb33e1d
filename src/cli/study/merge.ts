/** `jambeam merge`: slices of a study, run anywhere, put together. */
import { UserProblem, pathText } from '../problem.js';
import type { Io } from '../io.js';
import { changesBetween } from '../../study/request.js';
import { Standing } from '../../study/run/standing.js';
import { studySummaryText } from '../../report/study/summary-text.js';
import { join } from 'node:path';
import { writeResults } from './finish.js';
import { StudyFolder, isStudyFolder, lookAt, readStudyMarker } from './study-folder.js';

export interface MergeOptions {
  readonly out?: string;
  readonly force?: boolean;
}

export async function mergeCommand(folders: readonly string[], options: MergeOptions, io: Io): Promise<void> {
  const out = options.out;
  if (out === undefined) throw new UserProblem('--out: expected a folder for the whole study, found nothing');
  const [first, ...others] = folders.map((folder) => ({ folder, marker: readStudyMarker(folder) }));
  for (const { folder, marker } of others) {
    const changes = changesBetween(first!.marker.request, marker.request);
    if (changes.length > 0)
      throw new UserProblem(
        [
          `${pathText(folder)} is of another study than ${pathText(first!.folder)}:`,
          ...changes.map((line) => `    ${pathText(line)}`),
        ].join('\n'),
      );
  }
  const { request } = first!.marker;
  const plan = lookAt(first!.folder).standing.plan;
  const standing = new Standing(plan);
  const isThere = isStudyFolder(out);
  const intent = { resume: isThere, extend: false, force: options.force === true };
  const folder = await StudyFolder.open(out, { request, slice: null }, intent, standing, io);
  try {
    for (const { folder: from } of [first!, ...others]) {
      lookAt(from, (entry) => {
        // The same cell of two slices is the same: it stands once.
        if (standing.isNews(entry)) standing.take(entry, folder.journal.put(entry));
      }).journal.close();
      folder.journal.sync();
    }
    if (!standing.finished) {
      const { done, most } = standing.cells;
      const missing = standing.designs.filter(({ ended }) => ended === null).length;
      io.out(
        `${done} of ${plan.stopping.fixed === null ? 'at most ' : ''}${most} replicates are there; ${missing} designs are not finished\n` +
          `\`jambeam study STUDY --out ${pathText(out)} --resume\` does what is missing\n`,
      );
      return;
    }
    const summary = await writeResults(folder.path, standing, folder.journal);
    io.out(studySummaryText(summary, pathText(join(out, 'report.html'))));
    if (standing.designs.some(({ ended }) => ended === 'failed')) process.exitCode = 3;
  } finally {
    folder.close();
  }
}
