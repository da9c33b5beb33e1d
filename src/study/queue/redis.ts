/** Connections to Redis, and the names under which a study is there. No password of a URL is ever put into words. */
import { Redis } from 'ioredis';
import { QueueProblem, placeOf } from './place.js';

const CONNECT_MS = 5000;

/** Keys of all studies on one server. */
export const OPEN = 'jambeam:open';
export const requestKey = (digest: string): string => `jambeam:request:${digest}`;
/** Stands for a while after a study has ended, so that nobody waits for it. */
export const closedKey = (digest: string): string => `jambeam:closed:${digest}`;
export const queueName = (digest: string): string => `jambeam-${digest}`;

/**
 * A connection that waits when Redis is gone and goes on when it is back.
 *
 * @param note told once when it goes and once when it is back
 * @throws {QueueProblem} when it can't be reached at first
 */
export async function connect(url: string, note: (words: string) => void): Promise<Redis> {
  const place = placeOf(url);
  await tryOnce(url, place);
  const redis = new Redis(url, {
    // Commands wait as long as it takes.
    maxRetriesPerRequest: null,
    retryStrategy: (times) => Math.min(100 * times, 2000),
  });
  let gone = false;
  redis.on('error', () => {
    if (!gone) note(`${place} is gone; waiting for it`);
    gone = true;
  });
  redis.on('ready', () => {
    if (gone) note(`${place} is back`);
    gone = false;
  });
  return redis;
}

async function tryOnce(url: string, place: string): Promise<void> {
  const once = new Redis(url, {
    lazyConnect: true,
    retryStrategy: () => null,
    connectTimeout: CONNECT_MS,
    maxRetriesPerRequest: 0,
  });
  let why: unknown;
  once.on('error', (error) => (why ??= error));
  try {
    await once.connect();
    await once.ping();
  } catch (error) {
    const { message } = (why ?? error) as Error;
    throw new QueueProblem(`${place} can't be reached: ${message}`, 'is a Redis server running there?');
  } finally {
    once.disconnect();
  }
}
