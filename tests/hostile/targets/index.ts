/** All kinds of files that come from outside. */
import type { Target } from '../target.js';
import { check } from './check.js';
import { logs } from './log.js';
import { page } from './page.js';
import { profile } from './profile.js';
import { queue } from './queue.js';
import { readings } from './readings.js';
import { runFolder } from './run-folder.js';
import { scenario } from './scenario.js';
import { studyFolder } from './study-folder.js';
import { study } from './study.js';
import { table } from './table.js';
import { tallyLog } from './tally-log.js';
import { truth } from './truth.js';
import { walkSheet } from './walk-sheet.js';

export const TARGETS: readonly Target[] = [
  scenario,
  check,
  page,
  table,
  profile,
  study,
  ...logs,
  truth,
  readings,
  walkSheet,
  tallyLog,
  ...runFolder,
  ...studyFolder,
  ...queue,
];
