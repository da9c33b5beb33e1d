/** `jambeam join`: puts this machine's cores to work at studies on a queue. */
import type { Code } from '../../plugins/code.js';
import { openPool } from '../../study/run/pool.js';
import type { Io } from '../io.js';
import { type LogicOptions, codeOf, givenLogics } from '../logic-options.js';
import { issuesProblem } from '../issues-problem.js';
import { onSignal } from '../signals.js';
import { inWords, redisUrl } from './redis-option.js';
import { workersOf } from './options.js';

export interface JoinCommandOptions extends LogicOptions {
  readonly redis?: string | true;
  readonly workers?: string;
  readonly quiet?: boolean;
}

export async function joinCommand(options: JoinCommandOptions, io: Io): Promise<void> {
  const workers = workersOf(options.workers);
  const url = redisUrl(options.redis);
  const given = givenLogics(options);
  if (given.issues.length > 0) throw issuesProblem('--logic', given.issues);
  const stop = new AbortController();
  let ended: () => void = () => undefined;
  const ending = new Promise<void>((resolve) => (ended = resolve));
  const forget = onSignal(async () => {
    stop.abort();
    await ending;
    io.err('left the study; what was under way here is done by others\n');
  });
  try {
    const { join } = await import('../../study/queue/join.js');
    await inWords(() =>
      join(url, {
        workers,
        codesFor: (plan): readonly Code[] => codeOf(plan.scenario, given)?.codes ?? [],
        pool: (codes) => openPool({ workers, codes, limit_s: given.limit_s }),
        note: (words) => options.quiet === true || io.err(`${words}\n`),
        stop: stop.signal,
      }),
    );
  } finally {
    forget();
    ended();
  }
}
