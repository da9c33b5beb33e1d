/** What a run and a scored replay leave alike: the numbers, the charts' aggregates and the report. */
import { join } from 'node:path';
import { reportOf } from '../report/index.js';
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import type { Metrics } from '../score/metrics-schema.js';
import { writeNew } from './files.js';
import { pageScripts } from './page-scripts.js';

export interface Scored {
  readonly design: Design;
  readonly metrics: Metrics;
  readonly figures: Figures;
}

/** @param isStatic whether the report is a page without any script */
export async function writeScored(folder: string, scored: Scored, isStatic: boolean): Promise<void> {
  const { design, metrics, figures } = scored;
  const report = await reportOf(design, { metrics, figures }, pageScripts(isStatic));
  writeNew(join(folder, 'metrics.json'), `${JSON.stringify(metrics, null, 2)}\n`);
  writeNew(join(folder, 'figures.json'), `${JSON.stringify(figures)}\n`);
  writeNew(join(folder, 'report.html'), report);
}
