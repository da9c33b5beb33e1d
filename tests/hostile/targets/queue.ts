/** What comes over the queue from another machine: the study itself, a job, a result. */
import { jsonOrNothing } from '../../../src/engine/json.js';
import { admitted } from '../../../src/study/queue/join.js';
import { checked, jobSchema } from '../../../src/study/queue/job.js';
import { digestOf, requestSchema } from '../../../src/study/request.js';
import { smallStudy } from '../small-study.js';
import type { Target } from '../target.js';

/** What is no JSON never comes so far. */
const parsed = (bytes: Buffer): unknown => jsonOrNothing(bytes.toString('utf8'));

export const queue: readonly Target[] = [
  {
    name: 'queue-request',
    file: 'request.json',
    form: 'json',
    placed: false,
    share: 1,
    seeds: () => [Buffer.from(JSON.stringify(smallStudy().request))],
    take({ bytes }) {
      const text = bytes.toString('utf8');
      // Who changes a request can give it its digest, too.
      const request = requestSchema.safeParse(parsed(bytes)).data;
      admitted(request ? digestOf(request) : 'none', text, () => []);
    },
  },
  {
    name: 'queue-job',
    file: 'job.json',
    form: 'json',
    placed: false,
    share: 5,
    seeds: () => [
      Buffer.from(JSON.stringify({ design: 1, key: 'a'.repeat(24), replicate: 1, lesson: { calibration: [] } })),
    ],
    // A job that is none fails, as the queue has it: its words go to the coordinator's log and nowhere else.
    take: ({ bytes }) => jobSchema.safeParse(parsed(bytes)),
  },
  {
    name: 'queue-result',
    file: 'result.json',
    form: 'json',
    placed: false,
    share: 5,
    seeds: () => smallStudy().results.map((text) => Buffer.from(text)),
    take({ bytes }) {
      checked(parsed(bytes), smallStudy().plan.designs[0]!.shape, 1);
      checked(parsed(bytes), smallStudy().plan.designs[0]!.shape, 0);
    },
  },
];
