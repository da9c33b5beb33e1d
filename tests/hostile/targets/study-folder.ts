/** The folder of a study that a stranger sent: its marker, its journal with right sums, its summary. */
import { createHash } from 'node:crypto';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { MARKER } from '../../../src/cli/study/is-study-folder.js';
import { lookAt } from '../../../src/cli/study/study-folder.js';
import { summaryOf } from '../../../src/cli/study/study-report.js';
import { renderStudyReport } from '../../../src/report/study/report.js';
import { lineOf } from '../../../src/study/store/journal.js';
import { smallStudy } from '../small-study.js';
import type { Target } from '../target.js';

const JOURNAL = 'journal.jsonl';
const SUMMARY = 'study.json';

function seeAll(folder: string): void {
  lookAt(folder).journal.close();
  summaryOf(folder);
}

export const studyFolder: readonly Target[] = [
  {
    name: 'study-marker',
    file: MARKER,
    form: 'json',
    placed: false,
    share: 0.5,
    seeds: () => [Buffer.from(smallStudy().marker)],
    take({ folder }) {
      writeFileSync(join(folder, JOURNAL), smallStudy().entries.map(lineOf).join(''));
      seeAll(folder);
    },
  },
  {
    name: 'journal',
    file: JOURNAL,
    form: null,
    placed: false,
    share: 0.3,
    seeds: () => [Buffer.from(smallStudy().entries.map(lineOf).join(''))],
    take({ folder }) {
      writeFileSync(join(folder, MARKER), smallStudy().marker);
      seeAll(folder);
    },
  },
  {
    // Each entry is changed before its sum is taken.
    name: 'journal-sealed',
    file: 'entry.json',
    form: 'json',
    placed: false,
    share: 0.3,
    seeds: () => smallStudy().entries.map((text) => Buffer.from(text)),
    take({ folder, path, bytes }) {
      rmSync(path);
      const whole = smallStudy().entries.map(lineOf).join('');
      const sum = createHash('sha256').update(bytes).digest('hex').slice(0, 8);
      const sealed = bytes.includes(10)
        ? lineOf(bytes.toString('utf8'))
        : Buffer.concat([Buffer.from(`${sum} `), bytes, Buffer.of(10)]);
      writeFileSync(join(folder, MARKER), smallStudy().marker);
      writeFileSync(join(folder, JOURNAL), Buffer.concat([Buffer.from(sealed), Buffer.from(whole)]));
      seeAll(folder);
    },
  },
  {
    name: 'study-summary',
    file: SUMMARY,
    form: 'json',
    placed: false,
    share: 0.1,
    seeds: () => [Buffer.from(smallStudy().summary)],
    async take({ folder }) {
      await renderStudyReport(summaryOf(folder), {});
    },
  },
];
