/**
 * The folder of a finished run that a stranger sent: its digests are right, for whoever changes a file can seal it again.
 * What is taken for a run goes on into its report.
 */
import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readRun } from '../../../src/cli/read-run.js';
import { REPORT_INPUTS, RUN_FOLDER } from '../../../src/cli/run-folder.js';
import { renderReport } from '../../../src/report/report.js';
import { allFigures } from '../../../src/simulate/sources.js';
import { VERSION } from '../../../src/simulate/version.js';
import { smallRun } from '../material.js';
import type { Target } from '../target.js';

function inFolder(file: (typeof REPORT_INPUTS)[number], share: number): Target {
  return {
    name: `run-${file.replace('.json', '')}`,
    file,
    form: 'json',
    placed: false,
    share,
    seeds: () => [smallRun().texts.get(file)!],
    async take({ folder, bytes }) {
      const sums: Record<string, string> = {};
      for (const name of REPORT_INPUTS) {
        const text = name === file ? bytes : smallRun().texts.get(name)!;
        if (name !== file) writeFileSync(join(folder, name), text);
        sums[name] = createHash('sha256').update(text.toString('utf8')).digest('hex');
      }
      const marker = { format: 1, jambeam: VERSION, scenario: 'small', sha256: sums };
      writeFileSync(join(folder, RUN_FOLDER.marker), JSON.stringify(marker));
      const run = readRun(folder);
      await renderReport({ ...run, sources: allFigures(), version: VERSION });
    },
  };
}

export const runFolder: readonly Target[] = [
  inFolder('design.json', 0.03),
  inFolder('metrics.json', 0.1),
  inFolder('figures.json', 0.1),
  {
    name: 'run-marker',
    file: RUN_FOLDER.marker,
    form: 'json',
    placed: false,
    share: 5,
    seeds: () => [
      Buffer.from(
        JSON.stringify({
          format: 1,
          jambeam: VERSION,
          scenario: 'small',
          sha256: { 'design.json': 'ab', 'metrics.json': 'cd', 'figures.json': 'ef' },
        }),
      ),
    ],
    take({ folder }) {
      for (const name of REPORT_INPUTS) writeFileSync(join(folder, name), smallRun().texts.get(name)!);
      readRun(folder);
    },
  },
];
