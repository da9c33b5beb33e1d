/** `jambeam report`: the same report from a finished run's three files, and no report from anything else. */
import { createHash } from 'node:crypto';
import { cpSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { folderWithDoor, jambeam } from './jambeam.js';

const cwd = folderWithDoor();
const at = (...parts: string[]): string => join(cwd, ...parts);
let copies = 0;

beforeAll(async () => expect((await jambeam(['run', 'door.yaml'], { cwd })).code).toBe(0));

/** A copy of the run, without its CSV files. */
function copy(): string {
  const name = `copy-${++copies}.run`;
  cpSync(at('door.run'), at(name), { recursive: true });
  for (const file of ['passages.csv', 'tallies.csv']) rmSync(at(name, file));
  return name;
}

async function refused(folder: string, ...words: readonly string[]): Promise<void> {
  const said = await jambeam(['report', folder], { cwd });
  expect(said).toMatchObject({ code: 2, out: '' });
  for (const word of words) expect(said.err).toContain(word);
  // oxlint-disable-next-line no-control-regex -- they are what is looked for
  expect(said.err).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
}

/** Changes a file and the marker's digest of it, as somebody who means harm would. */
function forge(folder: string, file: string, edit: (text: string) => string): void {
  const text = edit(readFileSync(at(folder, file), 'utf8'));
  writeFileSync(at(folder, file), text);
  const marker = JSON.parse(readFileSync(at(folder, 'jambeam-run.json'), 'utf8')) as { sha256: Record<string, string> };
  marker.sha256[file] = createHash('sha256').update(text).digest('hex');
  writeFileSync(at(folder, 'jambeam-run.json'), JSON.stringify(marker));
}

test('without the CSV files and without the old report, the same bytes', async () => {
  const folder = copy();
  rmSync(at(folder, 'report.html'));
  expect(await jambeam(['report', folder], { cwd })).toEqual({
    code: 0,
    out: `Wrote ${folder}/report.html\n`,
    err: '',
  });
  expect(readFileSync(at(folder, 'report.html'), 'utf8')).toBe(readFileSync(at('door.run/report.html'), 'utf8'));
});

test('what is no finished run', async () => {
  await refused('nowhere', 'there is no such folder');
  await refused('door.yaml', 'expected the folder of a run, found a file');
  await refused('.', 'is no folder of a finished run');
  symlinkSync(at('door.run'), at('linked'));
  await refused('linked', 'found a link');
});

test.each(['design.json', 'metrics.json', 'figures.json'])(
  '%s missing, a link, or changed after the run',
  async (file) => {
    const folder = copy();
    writeFileSync(at(folder, file), readFileSync(at(folder, file), 'utf8').replace('1', '2'));
    await refused(folder, `${folder}/${file} is not as the run wrote it`, 'run the scenario again');
    renameSync(at(folder, file), at(`${folder}.${file}`));
    await refused(folder, `${folder}/${file}: there is no such file`);
    symlinkSync(at('door.run', file), at(folder, file));
    await refused(folder, `${folder}/${file} is a link`);
  },
);

test('files of two runs are not taken for one', async () => {
  const folder = copy();
  await jambeam(['run', 'door.yaml', '--seed', '2', '--out', 'second.run'], { cwd });
  cpSync(at('second.run/metrics.json'), at(folder, 'metrics.json'));
  await refused(folder, 'metrics.json is not as the run wrote it');
});

test.each([
  ['metrics.json', 'no JSON', () => '{"format":', 'expected JSON'],
  ['metrics.json', 'a list', () => '[]', 'metrics.json'],
  [
    'metrics.json',
    'another type',
    (t: string) => t.replace(/"visits": \d+/, '"visits": "<b>many</b>"'),
    'house.visits',
  ],
  ['metrics.json', 'an unknown key', (t: string) => t.replace('{', '{"__proto__":{"x":1},"extra":1,'), 'extra'],
  [
    'metrics.json',
    "a door that isn't there",
    (t: string) => t.replaceAll('"front"', '"<img src=x>"'),
    '<img src=x> is in the results',
  ],
  ['metrics.json', 'a newer format', (t: string) => t.replace('"format": 1', '"format": 2'), 'format'],
  ['figures.json', 'lists of two lengths', (t: string) => t.replace('"q05":[', '"q05":[1e9,'), 'one length'],
  ['figures.json', 'nonsense', () => '{"format":1,"drift":{},"rooms":[],"silhouettes":[]}', 'drift'],
  [
    'design.json',
    'an impossible width',
    (t: string) => t.replace(/"width_m": [\d.]+/, '"width_m": -5'),
    'doors.front.width_m',
  ],
  ['design.json', 'escapes', (t: string) => t.replace('"format": 1', '"\\u001b[2J": 1'), 'design.json'],
])('%s forged with %s', async (file, _, edit, word) => {
  const folder = copy();
  const before = readFileSync(at(folder, 'report.html'), 'utf8');
  forge(folder, file, edit);
  await refused(folder, word);
  expect(readFileSync(at(folder, 'report.html'), 'utf8')).toBe(before);
});

test('a run of another version: the report is made, and the difference is said', async () => {
  const folder = copy();
  forge(folder, 'metrics.json', (text) => text.replace(/"jambeam": "[^"]*"/, '"jambeam": "0.0.1\\u001b[2J"'));
  const { code, err } = await jambeam(['report', folder], { cwd });
  expect(code).toBe(0);
  expect(err).toContain(String.raw`made by jambeam 0.0.1\u{1b}[2J;`);
});
