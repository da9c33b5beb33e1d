/** A machine that joins: takes cells of whatever study is on the queue, does them on its cores, gives back what came of them. */
import { Worker } from 'bullmq';
import type { Redis } from 'ioredis';
import { jsonOrNothing } from '../../engine/json.js';
import { printable } from '../../engine/printable.js';
import type { Code } from '../../plugins/code.js';
import { digestOf as digestOfCode } from '../../plugins/digest.js';
import { VERSION } from '../../simulate/version.js';
import { withLesson } from '../cells/do-cell.js';
import type { StudyPlan } from '../plan/plan.js';
import { type StudyRequest, digestOf, planOfRequest, requestSchema } from '../request.js';
import type { Executor } from '../run/executor.js';
import { type Job, jobSchema } from './job.js';
import { QueueProblem, placeOf } from './place.js';
import { OPEN, closedKey, connect, queueName, requestKey } from './redis.js';

/** A machine that is silent for so long has lost its cell. */
const LOCK_MS = 10_000;
const STALLED_MS = 4000;
/** A cell that was lost so often is given up: it may be what ends machines. */
const MOST_LOST = 8;
const LOOK_MS = 1000;

export interface JoinOptions {
  readonly workers: number;
  /** The code of a study that has such logics, found among what this machine was started with. */
  readonly codesFor: (plan: StudyPlan) => readonly Code[];
  /** A pool of threads that knows this code. */
  readonly pool: (codes: readonly Code[]) => Executor;
  readonly note: (words: string) => void;
  readonly stop: AbortSignal;
}

/** Works until all studies that it joined have ended. @returns cells done */
export async function join(url: string, options: JoinOptions): Promise<number> {
  const { note, stop } = options;
  const redis = await connect(url, note);
  let done = 0;
  let joined = false;
  let told = false;
  try {
    while (!stop.aborted) {
      const [digest] = (await redis.smembers(OPEN)).sort();
      const text = digest === undefined ? null : await redis.get(requestKey(digest));
      if (digest === undefined || text === null) {
        if (joined) return done;
        if (!told) note(`no study is at ${placeOf(url)} yet; waiting for one`);
        told = true;
        await pause(LOOK_MS, stop);
        continue;
      }
      done += await workAt(redis, digest, text, options);
      joined = true;
    }
    return done;
  } finally {
    redis.disconnect();
  }
}

/** @throws {QueueProblem} when this machine can't work at the study */
export function admitted(
  digest: string,
  text: string,
  codesFor: JoinOptions['codesFor'],
): { plan: StudyPlan; codes: readonly Code[] } {
  const value = jsonOrNothing(text);
  if (value === undefined) throw new QueueProblem('what is on the queue is no study of jambeam');
  const version = (value as { jambeam?: unknown } | null)?.jambeam;
  if (typeof version === 'string' && version !== VERSION)
    throw new QueueProblem(
      `the study is of jambeam ${printable(version, 40)}; this is ${VERSION}, whose cells may differ`,
      'install the same version on all machines',
    );
  const request = requestSchema.safeParse(value).data;
  if (!request || digestOf(request) !== digest) throw new QueueProblem('what is on the queue is no study of jambeam');
  const plan = planOfRequest(request);
  if (typeof plan === 'string') throw new QueueProblem(`the study on the queue can't be worked out:\n${plan}`);
  const codes = codesFor(plan);
  checkCodes(request, codes);
  return { plan, codes };
}

/** Code is loaded from this machine's own disk, and must be what the study was begun with. */
function checkCodes(request: StudyRequest, codes: readonly Code[]): void {
  for (const [name, sha256] of Object.entries(request.codes)) {
    const code = codes.find((one) => one.name === name);
    if (!code || (digestOfCode(code) ?? null) !== sha256)
      throw new QueueProblem(
        `the logic ${name.slice(0, 100)} of the study is code${sha256 === null ? '' : ` with the SHA-256 ${sha256}`}, and this machine has none of it`,
        'give the same file with --logic or --logic-process',
      );
  }
}

async function workAt(redis: Redis, digest: string, text: string, options: JoinOptions): Promise<number> {
  const { note, stop, workers } = options;
  const { plan, codes } = admitted(digest, text, options.codesFor);
  note(`joined ${plan.study.name}: ${plan.designs.length} designs`);
  const pool = options.pool(codes);
  const connection = redis.duplicate();
  connection.on('error', () => undefined);
  let done = 0;
  const worker = new Worker<Job, unknown>(
    queueName(digest),
    async ({ data }) => {
      const job = jobSchema.parse(data);
      const planned = plan.designs[job.design - 1];
      if (!planned || planned.key !== job.key) throw new Error('a job of another study');
      const design = plan.design(planned);
      const result = await pool.run({
        key: job.key,
        design: withLesson(design, job.lesson as Parameters<typeof withLesson>[1]),
        replicate: job.replicate,
      });
      done++;
      return result;
    },
    {
      connection,
      concurrency: workers,
      lockDuration: LOCK_MS,
      stalledInterval: STALLED_MS,
      maxStalledCount: MOST_LOST,
    },
  );
  worker.on('error', () => undefined);
  try {
    for (;;) {
      await pause(LOOK_MS, stop);
      if (stop.aborted) break;
      // Redis may have forgotten the study for a moment; only one that was closed is over.
      if ((await redis.exists(closedKey(digest))) === 1) break;
    }
  } finally {
    // A cell under way is given up; its lock runs out, and another machine does it.
    await worker.close(true);
    connection.disconnect();
    await pool.close();
  }
  if (!stop.aborted) note(`${plan.study.name} has ended or was stopped; ${done} cells were done here`);
  return done;
}

async function pause(ms: number, stop: AbortSignal): Promise<void> {
  await new Promise<void>((done) => {
    const timer = setTimeout(over, ms);
    function over(): void {
      clearTimeout(timer);
      stop.removeEventListener('abort', over);
      done();
    }
    stop.addEventListener('abort', over);
    if (stop.aborted) over();
  });
}
