/** Why the simulating thread was ended, or ended by itself, while it was in code of the user's own. */
import type { CodeJob } from './code.js';
import { CodeProblem, shownText, whenAndWhere } from './code-problem.js';
import { type Place, placeIn } from './heart.js';

/** A call that has taken too long. @param doors names, in the design's order */
export function stuckProblem(job: CodeJob, doors: readonly string[], place: Place): CodeProblem {
  const how = place.call === 'loading' ? 'loading it has not ended' : `${place.call} has not returned`;
  return problem(
    job,
    doors,
    place,
    `${how} within ${job.limit_s} s`,
    'is there a loop without an end? --logic-timeout-s gives more time',
  );
}

/** The thread is gone without an answer; null when it was in no code of the user's. */
export function goneProblem(job: CodeJob, doors: readonly string[], error?: unknown): CodeProblem | null {
  const place = placeIn(job.shared);
  if (place === null) return null;
  const memory = (error as { code?: unknown } | undefined)?.code === 'ERR_WORKER_OUT_OF_MEMORY';
  const why = memory
    ? 'it used up all memory'
    : place.call === 'loading'
      ? 'loading it came to no end'
      : 'it ended the simulation';
  const hint = memory
    ? 'does its state grow with each step?'
    : place.call === 'loading'
      ? 'does it call process.exit, or wait for something that never comes?'
      : 'does it call process.exit?';
  return problem(job, doors, place, why, hint);
}

function problem({ codes }: CodeJob, doors: readonly string[], place: Place, what: string, hint: string): CodeProblem {
  const shown = shownText(codes[place.code]?.shown ?? '');
  const during =
    place.call === 'loading'
      ? 'while it was loaded'
      : `in ${place.call}, ${whenAndWhere(place.time_us, doors[place.door])}`;
  return new CodeProblem(`${shown}: ${what}\n  ${during}`, hint);
}
