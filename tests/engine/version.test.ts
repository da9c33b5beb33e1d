/** The core can't read files, so it holds the version a second time. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { VERSION } from '../../src/simulate/version.js';

test('the version in the code is the one of package.json', () => {
  const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
  expect(VERSION).toBe(version);
});
