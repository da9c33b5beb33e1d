/** What the folder of a run is like: `NAME.run`. */
import type { FolderKind } from './out-folder.js';

/** What the report is made from; the marker holds their digests, so that parts of two runs are never taken for one. */
export const REPORT_INPUTS = ['design.json', 'metrics.json', 'figures.json'] as const;

export const RUN_FOLDER: FolderKind = {
  marker: 'jambeam-run.json',
  files: [
    ...REPORT_INPUTS,
    'passages.csv',
    'tallies.csv',
    'edges.csv',
    'readings.csv',
    'report.html',
    'rooms.csv',
    'replay.json',
  ],
  sealed: REPORT_INPUTS,
  what: 'results',
  by: 'scenario',
  edited: false,
};
