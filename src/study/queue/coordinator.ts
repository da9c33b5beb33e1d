/**
 * Cells for other machines: this one puts them on a queue in Redis, takes what comes back, checks it, and alone writes
 * results. What Redis forgets is put there again; so a restart costs time and nothing else.
 */
import { type Job as QueuedJob, Queue } from 'bullmq';
import type { Done, Task } from '../cells/do-cell.js';
import type { PlannedDesign, StudyPlan } from '../plan/plan.js';
import { type StudyRequest, digestOf } from '../request.js';
import type { Executor } from '../run/executor.js';
import { type Job, checked } from './job.js';
import { QueueProblem, placeOf } from './place.js';
import { OPEN, closedKey, connect, queueName, requestKey } from './redis.js';

/** Cells on the queue at once: enough for many machines, few enough to put there again. */
const ROOM = 256;
const POLL_MS = 100;
/** So often it is looked whether Redis still has what it was given. */
const SWEEP_MS = 3000;
/** A cell whose results are wrong so often fails. */
const TRIES = 5;
const CLOSED_S = 3600;

interface Pending {
  readonly job: Job;
  readonly planned: PlannedDesign;
  readonly resolve: (done: Done) => void;
  wrong: number;
}

export async function openQueue(
  url: string,
  request: StudyRequest,
  plan: StudyPlan,
  note: (words: string) => void,
): Promise<Executor> {
  const redis = await connect(url, note);
  const digest = digestOf(request);
  const queue = new Queue<Job, unknown>(queueName(digest), { connection: redis });
  queue.on('error', () => undefined);
  const text = JSON.stringify(request);
  const pending = new Map<string, Pending>();
  const byKey = new Map(plan.designs.map((planned) => [planned.key, planned]));
  let closed = false;

  const announce = async (): Promise<void> => {
    await redis.del(closedKey(digest));
    await redis.set(requestKey(digest), text);
    await redis.sadd(OPEN, digest);
  };
  const put = async (id: string, { job }: Pending): Promise<void> => {
    await queue.add('cell', job, { jobId: id, attempts: 1 });
  };
  const again = async (id: string, one: Pending, queued: QueuedJob): Promise<void> => {
    await queued.remove();
    if (pending.has(id)) await put(id, one);
  };
  const take = async (queued: QueuedJob): Promise<void> => {
    const id = queued.id!;
    const one = pending.get(id);
    if (!one) return;
    const { job, planned } = one;
    const result = checked(queued.returnvalue, planned.shape, job.replicate);
    if ('fault' in result && ++one.wrong < TRIES) {
      note(`a result of design ${job.design} was refused (${result.fault}); it is done again`);
      return again(id, one, queued);
    }
    pending.delete(id);
    one.resolve('done' in result ? result.done : { failed: `results came back wrong ${TRIES} times: ${result.fault}` });
    await queued.remove();
  };
  /** A cell that fails in the queue itself: whoever had it went away again and again. */
  const lost = async (queued: QueuedJob): Promise<void> => {
    const one = pending.get(queued.id!);
    if (!one) return;
    if (++one.wrong < TRIES) return again(queued.id!, one, queued);
    pending.delete(queued.id!);
    one.resolve({ failed: `no machine came to its end: ${queued.failedReason}` });
    await queued.remove();
  };

  await announce();
  note(`the study is at ${placeOf(url)}: \`jambeam join --redis …\` there, here, or on any machine`);
  const loop = async (): Promise<void> => {
    let swept = performance.now();
    while (!closed) {
      for (const queued of await queue.getCompleted(0, ROOM)) await take(queued);
      for (const queued of await queue.getFailed(0, ROOM)) await lost(queued);
      if (performance.now() - swept > SWEEP_MS) {
        swept = performance.now();
        await announce();
        for (const [id, one] of pending) if (!(await queue.getJob(id)) && pending.has(id)) await put(id, one);
      }
      await new Promise((done) => setTimeout(done, POLL_MS));
    }
  };
  let broken: (error: unknown) => void = () => undefined;
  const breaking = new Promise<never>((_, reject) => (broken = reject));
  breaking.catch(() => undefined);
  const looping = loop().catch((error: unknown) => {
    if (!closed) broken(error instanceof Error ? new QueueProblem(`the queue failed: ${error.message}`) : error);
  });

  return {
    room: ROOM,
    run({ key, replicate, design }: Task): Promise<Done> {
      const planned = byKey.get(key)!;
      const { calibration, learnt } = design;
      const lesson =
        planned.learns && replicate > 0 ? { ...(calibration && { calibration }), ...(learnt && { learnt }) } : null;
      const job: Job = { design: planned.number, key, replicate, lesson };
      const id = `${planned.number}-${replicate}`;
      const answer = new Promise<Done>((resolve) => {
        const one: Pending = { job, planned, resolve, wrong: 0 };
        pending.set(id, one);
        put(id, one).catch(broken);
      });
      return Promise.race([answer, breaking]);
    },
    async close() {
      closed = true;
      await Promise.race([
        (async () => {
          await looping;
          await redis.set(closedKey(digest), '1', 'EX', CLOSED_S);
          await redis.srem(OPEN, digest);
          await redis.del(requestKey(digest));
          await queue.obliterate({ force: true });
        })().catch(() => undefined),
        // Redis may be gone for good: it must not keep a finished study from ending.
        new Promise((done) => setTimeout(done, 3000).unref()),
      ]);
      await queue.close().catch(() => undefined);
      redis.disconnect();
    },
  };
}
