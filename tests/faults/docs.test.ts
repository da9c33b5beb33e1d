/** docs/faults.md says what the code says. */
import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { systemWords } from '../../src/cli/problem.js';
import { codes, page, rowsOf } from '../acceptance/markdown.js';

const text = page('docs/faults.md');

test('the words for what the system says are those of the messages', () => {
  const rows = rowsOf(text).filter(([code = '']) => /^`E[A-Z]+`$/.test(code));
  expect(rows.length).toBeGreaterThan(5);
  for (const [code = '', words] of rows)
    expect(systemWords(Object.assign(new Error('refused'), { code: code.slice(1, -1), syscall: 'write' }))).toBe(words);
});

test('every file of these tests is named', () => {
  for (const file of readdirSync('tests/faults').filter((name) => name.endsWith('.test.ts')))
    if (!['docs.test.ts', 'table.test.ts'].includes(file)) expect(codes(text)).toContain(`tests/faults/${file}`);
});
