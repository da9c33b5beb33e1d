/** Problems of a file of the user's. Apart from the others: the words for them need every schema, which help does without. */
import { formatIssue } from '../scenario/explain.js';
import type { Issue } from '../scenario/issue.js';
import { UserProblem, pathText } from './problem.js';

/** All problems of a scenario at once, in the order they have. */
export function issuesProblem(file: string, issues: readonly Issue[]): UserProblem {
  const many = issues.length === 1 ? '1 problem' : `${issues.length} problems`;
  const text = `${issues.map(formatIssue).join('\n')}\n${many} with ${pathText(file)}; nothing was done`;
  return new UserProblem(text, undefined, true);
}
