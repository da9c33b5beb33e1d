/** Where results may go: never over what is not this scenario's own, never through a link. */
import { mkdirSync, readFileSync, readdirSync, renameSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { folderWithDoor, jambeam } from './jambeam.js';

const cwd = folderWithDoor();
const at = (...parts: string[]): string => join(cwd, ...parts);
const run = (...args: string[]) =>
  jambeam(['run', 'door.yaml', '--replicates', '1', '--hours', '0.1', ...args], { cwd });

beforeAll(async () => {
  expect((await run('--out', 'mine.run')).code).toBe(0);
  writeFileSync(at('other.yaml'), readFileSync(at('door.yaml')));
});

/** Everything below a folder, with the text of files. */
function contents(folder: string): Record<string, string> {
  return Object.fromEntries(
    readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ name }) => [name, readFileSync(join(folder, name), 'utf8')]),
  );
}

test('a folder with other files in it is left alone', async () => {
  mkdirSync(at('photos'));
  writeFileSync(at('photos', 'summer.txt'), 'a beach');
  const { code, err } = await run('--out', 'photos');
  expect(code).toBe(2);
  expect(err).toContain('photos is there already and holds no results of jambeam');
  expect(err).toContain('--force');
  expect(contents(at('photos'))).toEqual({ 'summer.txt': 'a beach' });
});

test('--force writes into it, and its own files stay', async () => {
  expect((await run('--out', 'photos', '--force')).code).toBe(0);
  expect(readFileSync(at('photos', 'summer.txt'), 'utf8')).toBe('a beach');
  expect(Object.keys(contents(at('photos')))).toContain('report.html');
});

test("another scenario's results need --force, the scenario's own don't", async () => {
  const other = await jambeam(['run', 'other.yaml', '--out', 'mine.run'], { cwd });
  expect(other.code).toBe(2);
  expect(other.err).toContain('mine.run holds the results of another scenario');
  expect((await run('--out', 'mine.run')).code).toBe(0);
});

test('moved together, scenario and folder still belong together', async () => {
  mkdirSync(at('a'));
  for (const file of ['door.yaml', 'my-logic.yaml']) writeFileSync(at('a', file), readFileSync(at(file)));
  const inA = { cwd: at('a') };
  expect((await jambeam(['run', 'door.yaml', '--hours', '0.1'], inA)).code).toBe(0);
  renameSync(at('a'), at('b'));
  expect((await jambeam(['run', 'door.yaml', '--hours', '0.1'], { cwd: at('b') })).code).toBe(0);
});

test('an empty folder may be used, a file or a missing parent not', async () => {
  mkdirSync(at('empty'));
  expect((await run('--out', 'empty')).code).toBe(0);
  expect(await run('--out', 'door.yaml')).toMatchObject({ code: 2, out: '' });
  expect((await run('--out', 'door.yaml')).err).toContain('expected a folder, found a file');
  expect((await run('--out', 'no/such/place')).err).toContain(
    "no/such/place can't be made: there is no folder no/such",
  );
});

test('links are not followed: neither the folder nor a file in it', async () => {
  mkdirSync(at('elsewhere'));
  symlinkSync(at('elsewhere'), at('link.run'));
  expect(await run('--out', 'link.run')).toMatchObject({ code: 2, out: '' });
  expect((await run('--out', 'link.run')).err).toContain('link.run is a link');
  expect(readdirSync(at('elsewhere'))).toEqual([]);

  expect((await run('--out', 'linked.run')).code).toBe(0);
  writeFileSync(at('precious.txt'), 'precious');
  for (const file of ['metrics.json', 'jambeam-run.json', 'edges.csv']) {
    const path = at('linked.run', file);
    const kept = at(`${file}.kept`);
    if (file !== 'edges.csv') renameSync(path, kept);
    symlinkSync(at('precious.txt'), path);
    const { code, err } = await run('--out', 'linked.run', '--force');
    expect(code).toBe(2);
    expect(err).toContain(`linked.run/${file} is a link or a folder`);
    renameSync(path, at(`${file}.link`));
    if (file !== 'edges.csv') renameSync(kept, path);
  }
  expect(readFileSync(at('precious.txt'), 'utf8')).toBe('precious');
});

test('a marker that is no marker makes no folder ours', async () => {
  for (const [i, text] of ['', '{', '[]', '{"format":1}', '{"__proto__":{"format":1}}', 'x'.repeat(2e6)].entries()) {
    mkdirSync(at(`forged-${i}`));
    writeFileSync(at(`forged-${i}`, 'jambeam-run.json'), text);
    const { code, err } = await run('--out', `forged-${i}`);
    expect(code).toBe(2);
    expect(err).not.toContain('our');
  }
});

test('what a killed run left behind is named, and left alone', async () => {
  mkdirSync(at('.again.run.unfinished-0badcafe'));
  const { code, err } = await run('--out', 'again.run');
  expect(code).toBe(0);
  expect(err).toContain('.again.run.unfinished-0badcafe was left by a run that was killed');
  expect(readdirSync(cwd)).toContain('.again.run.unfinished-0badcafe');
});

test('readings of an earlier run go with it, as its edges do', async () => {
  writeFileSync(at('sound.yaml'), readFileSync('scenarios/ultrasonic-in-a-hurry.yaml', 'utf8'));
  const sound = (...more: string[]) =>
    jambeam(['run', 'sound.yaml', '--hours', '0.2', '--replicates', '1', ...more], { cwd: at('.') });
  expect((await sound('--edges')).code).toBe(0);
  expect(readdirSync(at('sound.run'))).toEqual(expect.arrayContaining(['edges.csv', 'readings.csv']));
  expect((await sound()).code).toBe(0);
  for (const gone of ['edges.csv', 'readings.csv']) expect(readdirSync(at('sound.run'))).not.toContain(gone);
});
