/** Who truly came, beside a log that is right. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { replayLog } from '../../../src/cli/replay/job.js';
import { small, smallRun } from '../material.js';
import type { Target } from '../target.js';

const BY_HAND = 'time_s,door,direction\n12.5,front,forward\n90,front,backward\n';
const LOG = 'time_s,door,beam,level\n0,front,A,1\n0.2,front,B,1\n0.4,front,A,0\n0.6,front,B,0\n';

export const truth: Target = {
  name: 'truth',
  file: 'passages.csv',
  form: null,
  placed: true,
  share: 0.3,
  seeds: () => [smallRun().texts.get('passages.csv')!, Buffer.from(BY_HAND)],
  take({ folder, path }) {
    writeFileSync(join(folder, 'log.csv'), LOG);
    return replayLog(
      {
        design: small(),
        log: { file: join(folder, 'log.csv'), replicate: 1, door: 0, unit: undefined },
        truth: path,
        folder: null,
        watch: false,
        hours: null,
        static: true,
      },
      {},
    );
  },
};
