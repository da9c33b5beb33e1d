/**
 * The schemas published in docs/ are those of the code. They are written by `npx vitest run tests/cli/schemas.test.ts -u`
 * and compared here: a change detector, so that a change of a format is seen in review.
 */
import { expect, test } from 'vitest';
import { EDITOR_SCHEMAS } from '../../src/cli/editor-schemas.js';
import { metricsJsonSchema } from '../../src/score/json-schema.js';
import { summaryJsonSchema } from '../../src/study/json-schema.js';

test.each([
  ['metrics.schema.json', metricsJsonSchema()],
  ...Object.entries(EDITOR_SCHEMAS).map(([file, schema]): [string, object] => [`${file}.schema.json`, schema()]),
  ['study-summary.schema.json', summaryJsonSchema()],
])('docs/%s', async (file, schema) => {
  await expect(`${JSON.stringify(schema, null, 2)}\n`).toMatchFileSnapshot(`../../docs/${file}`);
});
