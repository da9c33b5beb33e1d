/** A sensor by its profile, from the disk: beside its scenario, and nowhere else. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { starterScenario } from '../../src/scenario/starter.js';
import { folder, jambeam } from './jambeam.js';

const cwd = folder();
mkdirSync(join(cwd, 'home', 'bench'), { recursive: true });
const write = (name: string, text: string) => writeFileSync(join(cwd, 'home', name), text);
const starter = starterScenario({ sensor: 'triangulation-ranger' }).replace(/ {2}- use: table.*\n.*\n.*\n/, '');
const withProfile = (file: string) => starter.replace(/ {4}kind: triangulation-ranger\n/, `    profile: ${file}\n`);

writeFileSync(join(cwd, 'outside.yaml'), 'kind: triangulation-ranger\n');

test('a fitted profile goes into the scenario as it is', async () => {
  write('bench/mine.yaml', 'kind: triangulation-ranger\ngain_v_m: 0.21   # ± 0.001 V·m\n');
  write('door.yaml', withProfile('bench/mine.yaml'));
  const { code, err } = await jambeam(['check', 'home/door.yaml'], { cwd });
  expect({ code, err }).toMatchObject({ code: 0 });
  expect(err).not.toContain('error');
});

test('its mistakes are told where an editor finds them', async () => {
  write('bench/wrong.yaml', 'kind: triangulation-ranger\ngain_v_m: 210\n');
  write('door.yaml', withProfile('bench/wrong.yaml'));
  const { code, err } = await jambeam(['check', 'home/door.yaml'], { cwd });
  expect(code).toBe(2);
  expect(err).toContain('home/bench/wrong.yaml:2:11: gain_v_m: expected 0.001 to 10, found 210');
});

test.each([
  ['missing.yaml', 'home/door.yaml:49:14: sensors.my-ranger.profile: "missing.yaml" can\'t be read: '],
  ['/etc/hostname', "can't be read: the name must not begin at the root of the disk"],
  ['../outside.yaml', "can't be read: the name must not lead out of the scenario's folder"],
  ['bench/../../outside.yaml', "can't be read: the name must not lead out of the scenario's folder"],
  ['bench', '"bench" can\'t be read: '],
])('%s is refused', async (file, words) => {
  write('door.yaml', withProfile(file));
  const { code, err } = await jambeam(['check', 'home/door.yaml'], { cwd });
  expect(code).toBe(2);
  expect(err).toContain(words);
});

test('a name with dots in it, or a way back into the folder, leads nowhere else', async () => {
  write('..mine.yaml', 'kind: triangulation-ranger\n');
  for (const file of ['..mine.yaml', 'bench/../..mine.yaml']) {
    write('door.yaml', withProfile(file));
    expect((await jambeam(['check', 'home/door.yaml'], { cwd })).code).toBe(0);
  }
});

test("a logic's table does not come from elsewhere either", async () => {
  writeFileSync(join(cwd, 'table.yaml'), 'format: 1\n');
  write(
    'door.yaml',
    `${withProfile('..mine.yaml').replace(/logics:\n/, 'logics:\n  - { use: table, file: ../table.yaml }\n')}`,
  );
  const { code, err } = await jambeam(['check', 'home/door.yaml'], { cwd });
  expect(code).toBe(2);
  expect(err).toContain('"../table.yaml" can\'t be read: the name must not lead out of the scenario\'s folder');
});
