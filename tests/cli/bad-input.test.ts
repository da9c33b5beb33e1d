/** A user's slips: one clear message, exit code 2, nothing written, no stack trace. */
import { chmodSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { folder, folderWithDoor, jambeam, jambeamProcess, type Said } from './jambeam.js';

const NOBODY = 65_534;
const isRoot = process.getuid?.() === 0;

function refused(said: Said, ...words: readonly string[]): void {
  expect(said).toMatchObject({ code: 2, out: '' });
  for (const word of words) expect(said.err).toContain(word);
  expect(said.err).not.toMatch(/^\s+at /m);
  // oxlint-disable-next-line no-control-regex -- they are what is looked for
  expect(said.err).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
}

test('all problems of a scenario at once, each with file, line and column', async () => {
  const cwd = folderWithDoor((text) =>
    text
      .replace('width_m: 0.9 ', 'widht_m: 0.9 ')
      .replace('height_m: 0.95', 'height_m: 95')
      .replace('to: hall ', 'to: hal '),
  );
  const said = await jambeam(['run', 'door.yaml'], { cwd });
  refused(said, 'unknown key "widht_m"', 'did you mean "width_m"?', 'height_m', 'hal', 'nothing was done');
  expect(said.err.match(/^door\.yaml:\d+:\d+: /gm)?.length).toBeGreaterThanOrEqual(3);
  expect(readdirSync(cwd).sort()).toEqual(['door.yaml', 'my-logic.yaml']);
});

test('problems of a table are told with the table’s own lines', async () => {
  const cwd = folderWithDoor();
  writeFileSync(join(cwd, 'my-logic.yaml'), 'format: 1\nname: x\nbeams: [A, B]\nstart: nowhere\nstates: {}\n');
  const said = await jambeam(['run', 'door.yaml'], { cwd });
  refused(said);
  expect(said.err).toMatch(/^my-logic\.yaml:\d+:\d+: /m);
  // From elsewhere the place leads to the file, so that an editor finds it.
  const elsewhere = await jambeam(['run', join(cwd, 'door.yaml')], { cwd: tmpdir() });
  expect(elsewhere.err).toMatch(/^\/\S+\/my-logic\.yaml:\d+:\d+: /m);
});

test('a table that is missing is named, with the nearest name in the folder', async () => {
  const cwd = folderWithDoor((text) => text.replace('file: my-logic.yaml', 'file: my-logik.yaml'));
  refused(
    await jambeam(['run', 'door.yaml'], { cwd }),
    '"my-logik.yaml" can\'t be read',
    'no such file',
    'my-logic.yaml?',
  );
});

test('a missing scenario: the nearest name in its folder', async () => {
  const cwd = folderWithDoor();
  refused(await jambeam(['run', 'dor.yaml'], { cwd }), 'dor.yaml: there is no such file', 'did you mean door.yaml?');
  refused(await jambeam(['run', 'nowhere/door.yaml'], { cwd }), 'there is no folder nowhere');
});

test('a folder, a device, a huge, a binary and an empty file are no scenarios', async () => {
  const cwd = folder();
  mkdirSync(join(cwd, 'door'));
  writeFileSync(join(cwd, 'door', 'scenario.yaml'), '');
  refused(await jambeam(['run', 'door'], { cwd }), 'found a folder', 'did you mean door/scenario.yaml?');
  refused(await jambeam(['run', '/dev/zero'], { cwd }), 'found a device or a pipe');
  writeFileSync(join(cwd, 'huge.yaml'), '#'.repeat(3 * 1_048_576));
  refused(await jambeam(['run', 'huge.yaml'], { cwd }), 'at most 1 MB, found 3.0 MB');
  writeFileSync(join(cwd, 'binary.yaml'), Buffer.from([0x7f, 0x45, 0x4c, 0x46, 0, 0, 1]));
  refused(await jambeam(['run', 'binary.yaml'], { cwd }), 'expected a text file, found binary data');
  writeFileSync(join(cwd, 'latin.yaml'), Buffer.from('name: caf\u00e9\n', 'latin1'));
  refused(await jambeam(['run', 'latin.yaml'], { cwd }), 'latin.yaml:1:10', 'UTF-8');
  writeFileSync(join(cwd, 'empty.yaml'), '');
  refused(await jambeam(['run', 'empty.yaml'], { cwd }), 'the file is empty');
});

test('a file that may not be read', async () => {
  const cwd = folderWithDoor();
  chmodSync(cwd, 0o755);
  chmodSync(join(cwd, 'door.yaml'), 0);
  // Root may read everything, so root becomes nobody for this.
  refused(jambeamProcess(['run', 'door.yaml'], { cwd, ...(isRoot ? { uid: NOBODY } : {}) }), 'permission is denied');
});

test('YAML that explodes is refused quickly', async () => {
  const cwd = folder();
  const lines = Array.from({ length: 30 }, (_, i) => `a${i + 1}: &a${i + 1} [*a${i}, *a${i}, *a${i}, *a${i}]`);
  writeFileSync(join(cwd, 'bomb.yaml'), ['a0: &a0 [x, x]', ...lines, ''].join('\n'));
  refused(await jambeam(['run', 'bomb.yaml'], { cwd }), 'bomb.yaml:');
});

test('control characters of a name or of a file’s name never reach the terminal', async () => {
  const cwd = folderWithDoor((text) => text.replace('"Front door"', String.raw`"\e[2Jdoor"`));
  refused(await jambeam(['run', 'door.yaml'], { cwd }), 'control character');
  refused(await jambeam(['run', '\u001b[2J\u0007.yaml'], { cwd }), String.raw`\u{1b}[2J\u{7}.yaml`);
});

test.each([
  [['--replicates', '2.5'], '--replicates: expected a whole number, found 2.5'],
  [['--replicates', '0'], '--replicates: expected 1 to 100000 runs, found 0'],
  [['--hours', 'two'], '--hours: expected a number of hours, found the text "two"'],
  [['--hours', '1,5'], 'with a point: 1.5'],
  [['--hours', '9999'], '--hours: expected 0.01 to 8760 hours, found 9999'],
  [['--hours', ''], '--hours: expected a number of hours'],
  [['--hours', 'NaN'], '--hours: expected a number of hours'],
  [['--days', '-1'], '--days: expected 0.001 to 365 days, found -1'],
  [['--hours', '2', '--days', '1'], '--hours, --days: both say how long to simulate'],
  [['--seed', ''], '--seed: expected 1 to 200 characters, found 0'],
  [['--seed', 'a\u0007'], '--seed: expected one line of plain text, found a control character'],
  [['--set', 'hours'], '--set: expected KEY=VALUE, found "hours"'],
  [['--set', 'doors.frnt.width_m=1'], 'did you mean "front"?'],
  [['--set', 'doors.front.width_m=90'], '--set doors.front.width_m'],
  [['--set', '__proto__.x=1'], '--set __proto__.x'],
])('run %j: the option is named', async (args, words) => {
  const cwd = folderWithDoor();
  refused(await jambeam(['run', 'door.yaml', ...args], { cwd }), words);
  expect(readdirSync(cwd).sort()).toEqual(['door.yaml', 'my-logic.yaml']);
});

test('wrong options and a wrong scenario are told together', async () => {
  const cwd = folderWithDoor((text) => text.replace('format: 1', 'format: 2'));
  refused(await jambeam(['run', 'door.yaml', '--hours', 'x', '--seed', ''], { cwd }), '--hours', '--seed', 'format');
});

test('a folder that is taken away while nobody looks is no crash', async () => {
  const cwd = folderWithDoor();
  rmSync(join(cwd, 'my-logic.yaml'));
  mkdirSync(join(cwd, 'my-logic.yaml'));
  refused(await jambeam(['run', 'door.yaml'], { cwd }), 'found a folder');
});
