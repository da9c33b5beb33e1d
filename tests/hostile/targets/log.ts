/** A log of edges or readings to be replayed, of the small house. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { replayLog } from '../../../src/cli/replay/job.js';
import type { Design } from '../../../src/scenario/schema.js';
import { small, smallRun } from '../material.js';
import type { Target } from '../target.js';

const OTHERS = [
  'time_s,beam,level\n0,A,1\n0.2,B,1\n0.4,A,0\n0.6,B,0\n',
  'time;door;beam;level\n2024-05-01T10:00:00;front;A;1\n2024-05-01T10:00:00.2;front;B;1\n',
  '# a counter that turns\ntime_us\tbeam\tlevel\n4294967000\tA\t1\n100\tB\t1\n',
  'time_ms,door,beam,distance_mm\n0,stairs,A,800\n40,stairs,B,\n80,stairs,A,310\n',
];

const foreign = (csv: Buffer): Buffer => Buffer.from(csv.toString('utf8').replace('replicate,door', 'run,door'));

function replay(house: Design, path: string, truth: string | null = null): Promise<unknown> {
  const log = { file: path, replicate: 1, door: 0, unit: undefined };
  return replayLog(
    { design: house, log, truth, folder: null, watch: false, hours: truth === null ? null : 1, static: true },
    {},
  );
}

const common = { file: 'log.csv', form: null, placed: true } as const;

export const logs: readonly Target[] = [
  {
    ...common,
    name: 'log',
    share: 1,
    seeds: () => {
      const { texts } = smallRun();
      const own = [texts.get('edges.csv')!, texts.get('readings.csv')!].map(foreign);
      return [...own, ...OTHERS.map((text) => Buffer.from(text))];
    },
    take: ({ path }) => replay(small(), path),
  },
  {
    // Scored by who truly came, over the hour of the run.
    ...common,
    name: 'own-log',
    share: 0.2,
    seeds: () => [smallRun().texts.get('edges.csv')!],
    take({ folder, path }) {
      const passages = join(folder, 'passages.csv');
      const rows = smallRun().texts.get('passages.csv')!.toString('utf8').split('\n');
      writeFileSync(passages, `${rows.filter((row) => !row.includes('stairs')).join('\n')}\n`);
      return replay(withoutRangers(), path, passages);
    },
  },
];

function withoutRangers(): Design {
  const design = small();
  return { ...design, doors: design.doors.filter(({ name }) => name === 'front') };
}
