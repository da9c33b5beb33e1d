/** Cells for other machines. */
import type { StudyPlan } from '../plan/plan.js';
import type { StudyRequest } from '../request.js';
import type { Executor } from '../run/executor.js';

export async function openQueue(
  _url: string,
  _request: StudyRequest,
  _plan: StudyPlan,
  _note: (words: string) => void,
): Promise<Executor> {
  throw new Error('not yet');
}
