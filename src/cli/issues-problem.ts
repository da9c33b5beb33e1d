/** Problems of a file of the user's. Apart from the others: the words for them need every schema, which help does without. */
import { formatIssue } from '../scenario/explain.js';
import { type Issue, firstOf } from '../scenario/issue.js';
import { UserProblem, pathText } from './problem.js';

/** What is wrong with one row is often wrong with all: so many of them are told. */
const ROWS_TOLD = 20;

/** All problems of a scenario at once, in the order they have. */
export function issuesProblem(file: string, issues: readonly Issue[]): UserProblem {
  const all = issues.reduce((n, { problem }) => n + (problem.code === 'and_more' ? problem.count : 1), 0);
  const many = all === 1 ? '1 problem' : `${all} problems`;
  const text = `${issues.map(formatIssue).join('\n')}\n${many} with ${pathText(file)}; nothing was done`;
  return new UserProblem(text, undefined, true);
}

/** The same of the rows of a file, of which the first twenty are told. */
export function rowsProblem(file: string, issues: readonly Issue[]): UserProblem {
  return issuesProblem(file, firstOf(issues, ROWS_TOLD));
}
