/** The same scenario, seed and version give the same bytes on this Node, compiled, and on others. */
import { execFileSync } from 'node:child_process';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildSync } from 'esbuild';
import { beforeAll, describe, expect, test } from 'vitest';
import * as library from '../../src/index.js';
import { folder } from '../cli/jambeam.js';
import { type Texts, textsOf } from './fingerprint.js';
import { type Hashes, hashesOf } from './hashes.js';
import { LONG } from '../how-many.js';

/** Come from the registry, as packages whose binary is Node itself. The one of 24 by default, all before a release. */
const OTHERS = LONG ? ['node@22.23.3', 'node@24.21.0', 'node@26.10.0'] : ['node@24.21.0'];

const dir = folder();
const script = join(dir, 'fingerprint.mjs');
const compiled = pathToFileURL(resolve('dist/index.js')).href;
let texts: Texts;

beforeAll(() => {
  texts = textsOf(library);
  const entry = resolve(import.meta.dirname, 'fingerprint-in-node.ts');
  buildSync({ entryPoints: [entry], outfile: script, bundle: true, platform: 'node', format: 'esm' });
});

function run(command: string, ...args: readonly string[]): string {
  return execFileSync(command, args, { cwd: dir, encoding: 'utf8', timeout: 100_000, stdio: 'pipe' });
}

test('the run holds something of everything', () => {
  for (const kind of ['through', 'abreast', 'close-behind', 'against', 'turn-back', 'linger'])
    expect(texts.passages).toContain(`"kind":"${kind}"`);
  for (const who of ['adult', 'child', 'adult-with-infant', 'rod', 'family', 'grandmother'])
    expect(texts.passages).toContain(`"who":"${who}"`);
  for (const rows of [texts.passages, texts.tallies, texts.edges])
    for (const beginning of ['1 {', '2 {']) expect(rows).toContain(beginning);
  for (const door of [0, 1]) expect(texts.edges).toContain(`"door":${door}`);
  for (const logic of [0, 1, 2, 3]) expect(texts.tallies).toContain(`"logic":${logic}`);
});

test('a second run gives the same bytes', () => {
  expect(hashesOf(textsOf(library))).toEqual(hashesOf(texts));
});

test('so does the compiled package in a process of its own', () => {
  const hashes = JSON.parse(run(process.execPath, script, compiled)) as Hashes;
  expect(hashes).toEqual(hashesOf(texts));
});

describe.each(OTHERS)('%s', (version) => {
  const npx = (...args: string[]) => run('npx', '-y', '-p', version, 'node', ...args);
  let missing = '';
  beforeAll(() => {
    try {
      expect(npx('--version').trim()).toBe(`v${version.slice('node@'.length)}`);
    } catch (error) {
      missing = String(error);
    }
  });

  test('so does another Node', ({ skip }) => {
    if (missing !== '' && process.env['CI'] !== 'true') skip(`${version} can't be had here: ${missing.slice(0, 200)}`);
    expect(missing).toBe('');
    const hashes = JSON.parse(npx(script, compiled)) as Hashes;
    expect(hashes).toEqual(hashesOf(texts));
  });
});
