/** What a run and a scored replay leave alike: the numbers, the charts' aggregates and the report. */
import { join } from 'node:path';
import { renderReport } from '../report/report.js';
import { sha256 } from '../report/sha256.js';
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import type { Metrics } from '../score/metrics-schema.js';
import { allFigures } from '../simulate/sources.js';
import { VERSION } from '../simulate/version.js';
import { writeNew } from './files.js';
import { pageScripts } from './page-scripts.js';

export interface Scored {
  readonly design: Design;
  /** The text of its design.json. */
  readonly designText: string;
  readonly metrics: Metrics;
  readonly figures: Figures;
}

/** @param isStatic whether the report is a page without any script */
export async function writeScored(folder: string, scored: Scored, isStatic: boolean): Promise<void> {
  const { design, designText, metrics, figures } = scored;
  const report = await renderReport({
    design,
    metrics,
    figures,
    sources: allFigures(),
    version: VERSION,
    ...pageScripts(isStatic),
    design_sha256: sha256(designText),
  });
  writeNew(join(folder, 'metrics.json'), `${JSON.stringify(metrics, null, 2)}\n`);
  writeNew(join(folder, 'figures.json'), `${JSON.stringify(figures)}\n`);
  writeNew(join(folder, 'report.html'), report);
}
