/** `jambeam report` of several runs: one page, nothing overwritten that isn't such a page, and a clear no to all else. */
import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { labelsOf } from '../../src/cli/compare.js';
import { folderWithDoor, jambeam } from './jambeam.js';

const cwd = folderWithDoor();
const at = (...parts: string[]): string => join(cwd, ...parts);
const SHORT = ['--replicates', '3', '--hours', '1'];

beforeAll(async () => {
  for (const more of [
    [],
    ['--set', 'doors.front.beams.*.height_m=1.4', '--out', 'high.run'],
    ['--seed', '8', '--out', 'other.run'],
  ])
    expect((await jambeam(['run', 'door.yaml', ...SHORT, ...more], { cwd })).code).toBe(0);
});

async function refused(args: readonly string[], ...words: readonly string[]): Promise<void> {
  const said = await jambeam(['report', ...args], { cwd });
  expect(said).toMatchObject({ code: 2, out: '' });
  for (const word of words) expect(said.err).toContain(word);
}

/** Changes a file and the marker's digest of it, as somebody who means harm would. */
function forge(folder: string, file: string, edit: (text: string) => string): void {
  const text = edit(readFileSync(at(folder, file), 'utf8'));
  writeFileSync(at(folder, file), text);
  const marker = JSON.parse(readFileSync(at(folder, 'jambeam-run.json'), 'utf8')) as { sha256: Record<string, string> };
  marker.sha256[file] = createHash('sha256').update(text).digest('hex');
  writeFileSync(at(folder, 'jambeam-run.json'), JSON.stringify(marker));
}

test('two runs become one page; the verdict stands in the terminal too; the runs stay as they were', async () => {
  const before = ['door.run', 'high.run'].map((folder) => readdirSync(at(folder)));
  const { code, out, err } = await jambeam(['report', 'door.run', 'high.run', '--out', 'both.html'], { cwd });
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(/^“(?:door|high)”.*wrong/);
  expect(out).toMatch(/Unwise to conclude: that/);
  expect(out).toMatch(/Wrote both\.html\n$/);
  const page = readFileSync(at('both.html'), 'utf8');
  expect(page).toContain('doors.front.beams.*.height_m');
  expect(page).not.toContain(cwd);
  expect(['door.run', 'high.run'].map((folder) => readdirSync(at(folder)))).toEqual(before);
});

test('runs that met different people are compared, and the terminal says so', async () => {
  const { code, out } = await jambeam(['report', 'door.run', 'other.run', '--out', 'seeds.html'], { cwd });
  expect(code).toBe(0);
  expect(out.replace(/\s+/g, ' ')).toContain('they met different people, for they have different seeds');
});

describe('where the page goes', () => {
  const two = ['door.run', 'high.run'];

  test('it must be said, as a name that ends in .html, in a folder that is there', async () => {
    await refused(two, '--out is missing', 'hint: for example --out compare.html');
    await refused([...two, '--out', 'both.pdf'], 'a name that ends in .html, found both.pdf');
    await refused([...two, '--out', 'nowhere/both.html'], 'there is no folder nowhere');
    mkdirSync(at('folder.html'));
    await refused([...two, '--out', 'folder.html'], 'expected a file, found a folder');
    symlinkSync(at('both.html'), at('link.html'));
    await refused([...two, '--out', 'link.html'], 'is a link');
  });

  test('a page of ours is written over; any other file only with --force', async () => {
    expect((await jambeam(['report', ...two, '--out', 'ours.html'], { cwd })).code).toBe(0);
    expect((await jambeam(['report', ...two, '--out', 'ours.html'], { cwd })).code).toBe(0);
    for (const text of ['', '<html>mine</html>', readFileSync(at('door.run/report.html'), 'utf8')]) {
      writeFileSync(at('mine.html'), text);
      await refused([...two, '--out', 'mine.html'], 'is there already and is no comparison', '--force');
      expect(readFileSync(at('mine.html'), 'utf8')).toBe(text);
    }
    expect((await jambeam(['report', ...two, '--out', 'mine.html', '--force'], { cwd })).code).toBe(0);
    expect(readFileSync(at('mine.html'), 'utf8')).toBe(readFileSync(at('ours.html'), 'utf8'));
  });

  test('the report of one run goes into its own folder', async () => {
    await refused(['door.run', '--out', 'one.html'], '--out is for several runs');
  });
});

describe('what is not compared', () => {
  test('a folder that is no run, or a study', async () => {
    await refused(['door.run', 'nowhere', '--out', 'x.html'], 'nowhere: there is no such folder');
    mkdirSync(at('heights.study'));
    writeFileSync(at('heights.study', 'jambeam-study.json'), '{}');
    await refused(['door.run', 'heights.study', '--out', 'x.html'], 'heights.study is the folder of a study');
  });

  test('more runs than a table can hold', async () => {
    await refused([...Array.from({ length: 13 }, () => 'door.run'), '--out', 'x.html'], 'at most 12 runs, found 13');
  });

  test('replicates that are not those of the design', async () => {
    cpSync(at('door.run'), at('forged.run'), { recursive: true });
    forge('forged.run', 'figures.json', (text) => {
      const figures = JSON.parse(text) as { replicates: unknown[] };
      return JSON.stringify({ ...figures, replicates: figures.replicates.slice(1) });
    });
    await refused(
      ['door.run', 'forged.run', '--out', 'x.html'],
      'forged.run: the replicates in figures.json are not those',
    );
    expect(readdirSync(cwd)).not.toContain('x.html');
  });
});

test('a run made before replicates were kept is read; a note says to run it again', async () => {
  cpSync(at('high.run'), at('old.run'), { recursive: true });
  forge('old.run', 'figures.json', (text) => {
    const { replicates: _, ...figures } = JSON.parse(text) as Record<string, unknown>;
    return JSON.stringify(figures);
  });
  const { code, err } = await jambeam(['report', 'door.run', 'old.run', '--out', 'old.html'], { cwd });
  expect(code).toBe(0);
  expect(err).toContain('old.run did not keep what each replicate found');
  expect(err).toContain('run it again');
});

test('a run of another version is told, and never paired', async () => {
  cpSync(at('high.run'), at('older.run'), { recursive: true });
  forge('older.run', 'metrics.json', (text) => text.replace(/"jambeam": "[^"]*"/, '"jambeam": "0.0.1"'));
  const { err } = await jambeam(['report', 'door.run', 'older.run', '--out', 'older.html'], { cwd });
  expect(err).toContain('older.run was made by jambeam 0.0.1');
  expect(readFileSync(at('older.html'), 'utf8')).toContain('different versions of jambeam');
});

test('runs are called by the last name of their folder, made unique', () => {
  expect(labelsOf(['a/low.run', './high.run/', 'plain'])).toEqual(['low', 'high', 'plain']);
  expect(labelsOf(['a/x.run', 'b/x.run', 'c/x'])).toEqual(['x (a)', 'x (b)', 'x (c)']);
  expect(labelsOf(['a/x.run', 'b/x.run', 'x (a)'])).toEqual(['x (b)', 'x (c)', 'x (a)']);
  expect(labelsOf(['/', '.run'])).toEqual(['run', '.run']);
  expect(labelsOf([`${'long'.repeat(60)}.run`])[0]).toHaveLength(60);
});
