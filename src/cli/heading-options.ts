/** `--title` and `--prepared-by`, under the same limits as the keys of a scenario. */
import { type Heading, headingSchema } from '../scenario/heading.js';
import type { Issue } from '../scenario/issue.js';
import { checkShape } from '../scenario/shape.js';
import { isOneLine } from '../scenario/yaml-reader.js';

export interface HeadingOptions {
  readonly title?: string;
  readonly preparedBy?: string;
}

const OPTIONS: Readonly<Record<string, string>> = { title: '--title', prepared_by: '--prepared-by' };

/** What is given of a heading, and what is wrong with it. Never throws. */
export function headingOf({ title, preparedBy }: HeadingOptions): { heading: Heading; issues: Issue[] } {
  const given: Record<string, string> = {
    ...(title !== undefined && { title }),
    ...(preparedBy !== undefined && { prepared_by: preparedBy }),
  };
  const { data, findings } = checkShape(headingSchema, given);
  const issues = findings.map(
    ({ path, problem }): Issue => ({ place: null, path: OPTIONS[String(path[0])] ?? '', problem }),
  );
  for (const [key, text] of Object.entries(given))
    if (!isOneLine(text))
      issues.push({ place: null, path: OPTIONS[key] ?? '', problem: { code: 'not_text', why: 'control character' } });
  return { heading: data ?? {}, issues };
}
