/**
 * All tests of a folder as one file, for mutation testing: what runs while modules load is put to every test, and starting
 * fifty files takes longer than what is in them.
 */
import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { describe } from 'vitest';

const folder = process.env['JAMBEAM_MUTATE'] ?? 'engine';
/** Against the world outside. */
const REFERENCE: Readonly<Record<string, readonly string[]>> = {
  engine: ['arithmetic'],
  score: ['intervals', 'matching', 'survival', 'walk-test'],
};
/** They read the source, or compile C. */
const APART = ['engine/purity.test.ts', 'counter/c99/'];

const tests = dirname(dirname(fileURLToPath(import.meta.url)));
const files = [
  ...readdirSync(join(tests, folder), { recursive: true }).map((name) => join(folder, String(name))),
  ...(REFERENCE[folder] ?? []).map((name) => `reference/${name}.test.ts`),
];
for (const name of files.filter((file) => file.endsWith('.test.ts')).toSorted()) {
  if (APART.some((one) => name.startsWith(one))) continue;
  describe(name, async () => void (await import(/* @vite-ignore */ join(tests, name))));
}
