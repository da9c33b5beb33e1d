/** `jambeam merge`: slices of a study, run anywhere, put together. */
import { onSignal } from '../signals.js';
import { UserProblem, onDisk, pathText } from '../problem.js';
import type { Io } from '../io.js';
import { changesBetween } from '../../study/request.js';
import { Standing } from '../../study/run/standing.js';
import { conclude, doneWords } from './finish.js';
import { isStudyFolder } from './is-study-folder.js';
import { StudyFolder, planIn, readJournal, readStudyMarker } from './study-folder.js';

export interface MergeOptions {
  readonly out?: string;
  readonly force?: boolean;
  readonly static?: boolean;
}

export async function mergeCommand(folders: readonly string[], options: MergeOptions, io: Io): Promise<void> {
  const { out } = options;
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
  const standing = new Standing(planIn(first!.folder, first!.marker));
  const isThere = isStudyFolder(out);
  const intent = { resume: isThere, extend: false, force: options.force === true };
  const folder = await StudyFolder.open(out, { request, slice: null }, intent, standing, io);
  const forget = onSignal(() => folder.close());
  try {
    for (const { folder: from } of [first!, ...others]) {
      // The same cell of two slices is the same: it stands once.
      readJournal(from, (entry) => standing.takeNew(entry, () => folder.journal.put(entry))).close();
      onDisk(`the journal in ${pathText(out)} can't be written`, () => folder.journal.sync());
    }
    if (!standing.finished) {
      const missing = standing.designs.filter(({ ended }) => ended === null).length;
      io.out(
        `${doneWords(standing.cells, standing.plan.stopping.fixed)} replicates are there; ${missing} designs are not finished\n` +
          `\`jambeam study STUDY --out ${pathText(out)} --resume\` does what is missing\n`,
      );
      return;
    }
    await conclude(out, folder, standing, io, { static: options.static });
  } finally {
    forget();
    folder.close();
  }
}
