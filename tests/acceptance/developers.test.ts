/** The contributor's guide: what it sends one to is there. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ROOT, page } from './markdown.js';

const guide = page('DEVELOPERS.md');
const flat = guide.replace(/\n +/g, ' ');
const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

test('every file and folder that it names is there', () => {
  const named = [...guide.matchAll(/`((?:src|tests|build|bench|docs|scenarios|bin)\/[\w./-]+)`/g)].map(
    ([, path]) => path!,
  );
  // NAME, KIND, GROUP and FOLDER stand for what is yet to be written.
  const there = named.filter((path) => !/[A-Z]{4}/.test(path));
  expect(there.length).toBeGreaterThan(60);
  expect(there.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
});

test('what it says is in a file stands in that file', () => {
  const pairs = [
    ...[...flat.matchAll(/`(\w+)` in `(src\/[\w./-]+\.ts)`/g)].map(([, name, file]) => ({ name: name!, file: file! })),
    ...[...flat.matchAll(/`(src\/[\w./-]+\.ts)`: (?:[a-z ]+)?`(\w+)`/g)].map(([, file, name]) => ({
      name: name!,
      file: file!,
    })),
  ].filter(({ file }) => !/[A-Z]{4}/.test(file));
  expect(pairs.length).toBeGreaterThan(7);
  for (const { name, file } of pairs)
    expect({ name, file, there: new RegExp(`\\b${name}\\b`).test(read(file)) }).toEqual({ name, file, there: true });
});

describe('every folder of src has a row in its table', () => {
  const folders = readdirSync(join(ROOT, 'src'), { withFileTypes: true }).filter((one) => one.isDirectory());
  test.each(folders.map(({ name }) => name))('%s', (name) => expect(guide).toContain(`| \`src/${name}\` |`));
});

describe('there is a way, file by file, to add', () => {
  test.each(['a logic', 'a kind of sensor', 'a kind of passage', 'a chart', 'a command or an option'])('%s', (what) => {
    const section = guide.split(/^### /m).find((part) => part.startsWith(`Add ${what}\n`)) ?? '';
    expect(section.match(/^1\. /m)).not.toBeNull();
    expect(section.match(/`(?:src|tests)\/[\w./-]+`/g)?.length ?? 0).toBeGreaterThan(3);
  });
});
