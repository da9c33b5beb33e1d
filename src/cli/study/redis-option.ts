/** `--redis`: where the queue is. A password in it is never printed. */
import { QueueProblem, placeOf } from '../../study/queue/place.js';
import { UserProblem } from '../problem.js';

/** The URL of the option, or of JAMBEAM_REDIS where it has none: other users of a machine can read command lines. */
export function redisUrl(option: string | true | undefined): string {
  const url = typeof option === 'string' ? option : process.env['JAMBEAM_REDIS'];
  if (url === undefined || url === '')
    throw new UserProblem(
      '--redis: expected redis://HOST:PORT, found nothing',
      'give it there or in the environment variable JAMBEAM_REDIS',
    );
  try {
    placeOf(url);
  } catch (error) {
    throw userProblem(error);
  }
  return url;
}

/** What goes wrong with the queue becomes the user's problem, in words. */
export async function inWords<T>(step: () => Promise<T>): Promise<T> {
  try {
    return await step();
  } catch (error) {
    throw userProblem(error);
  }
}

function userProblem(error: unknown): unknown {
  return error instanceof QueueProblem ? new UserProblem(error.message, error.hint) : error;
}
