/** `jambeam new`: a starter that runs, and nobody's work overwritten. */
import { mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { parseScenario } from '../../src/scenario/parse.js';
import { SENSOR_KINDS } from '../../src/sensors/schema.js';
import { plainRun } from '../simulate/plain-run.js';
import { folder, jambeam } from './jambeam.js';

const FILES = ['my-logic.ts', 'my-logic.yaml', 'scenario.schema.json', 'scenario.yaml', 'table.schema.json'];
const cwd = folder();
const at = (...parts: string[]): string => join(cwd, ...parts);
const read = (...parts: string[]): string => readFileSync(at(...parts), 'utf8');
const parsed = (dir: string) =>
  parseScenario(read(dir, 'scenario.yaml'), 'scenario.yaml', { readFile: (file) => read(dir, file) });

test('writes five files and says what to type next', async () => {
  const { code, out, err } = await jambeam(['new', 'x'], { cwd });
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(readdirSync(at('x')).sort()).toEqual(FILES);
  expect(out).toMatch(/jambeam\S* check x\/scenario\.yaml/);
  expect(out).toMatch(/jambeam\S* run x\/scenario\.yaml/);
  expect(parsed('x')).toMatchObject({ issues: [], cautions: [] });
  expect(read('x', 'scenario.yaml')).toContain('$schema=./scenario.schema.json');
  expect(read('x', 'my-logic.yaml')).toContain('$schema=./table.schema.json');
  for (const file of ['scenario.schema.json', 'table.schema.json'])
    expect(read('x', file)).toBe(readFileSync(`docs/${file}`, 'utf8'));
});

test('the ready-made starter of the repository is what `new` writes, apart from the line for editors', () => {
  const body = (text: string) => text.slice(text.indexOf('\n'));
  expect(body(readFileSync('scenarios/starter.yaml', 'utf8'))).toBe(body(read('x', 'scenario.yaml')));
  expect(body(readFileSync('scenarios/my-logic.yaml', 'utf8'))).toBe(body(read('x', 'my-logic.yaml')));
  expect(readFileSync('scenarios/my-logic.ts', 'utf8')).toBe(read('x', 'my-logic.ts'));
});

test('--width_m goes into the scenario', async () => {
  expect((await jambeam(['new', 'wide', '--width_m', '1.4', '--sensor', 'light-barrier'], { cwd })).code).toBe(0);
  expect(parsed('wide').design?.doors[0]?.width_m).toBe(1.4);
});

test.each(SENSOR_KINDS)('--sensor %s gives a starter that runs', async (sensor) => {
  expect((await jambeam(['new', sensor, '--sensor', sensor], { cwd })).code).toBe(0);
  const { design, issues, cautions } = parsed(sensor);
  expect({ issues, cautions }).toEqual({ issues: [], cautions: [] });
  expect(Object.values(design!.sensors).map(({ kind }) => kind)).toEqual([sensor]);
  let tallies = 0;
  plainRun({ ...design!, hours: 0.5, replicates: 2 }, { tally: () => tallies++ });
  // Ten parties go in and come out again.
  expect(tallies).toBeGreaterThan(10);
});

test.each([
  [['--width_m', '90'], '--width_m: expected 0.4 to 10 metres, found 90'],
  [['--width_m', 'wide'], '--width_m: expected a number of metres'],
  [['--width_m', ''], '--width_m: expected a number of metres'],
  [
    ['--sensor', 'radar'],
    '--sensor: expected one of light-barrier, ultrasonic-ranger, triangulation-ranger or time-of-flight-ranger, found',
  ],
])('%j is refused and nothing is made', async (args, words) => {
  const { code, err } = await jambeam(['new', 'refused', ...args], { cwd });
  expect(code).toBe(2);
  expect(err).toContain(words);
  expect(readdirSync(cwd)).not.toContain('refused');
});

test('typed twice it changes nothing; what was edited is never overwritten', async () => {
  expect(await jambeam(['new', 'x'], { cwd })).toMatchObject({ code: 0, err: '' });
  writeFileSync(at('x', 'scenario.yaml'), '# my own work\n');
  const { code, err } = await jambeam(['new', 'x'], { cwd });
  expect(code).toBe(2);
  expect(err).toContain('x holds scenario.yaml already, and it may be your work: nothing was written');
  expect(read('x', 'scenario.yaml')).toBe('# my own work\n');
});

test('a folder with other files, a file, a link and a missing parent are refused', async () => {
  mkdirSync(at('full'));
  writeFileSync(at('full', 'notes.txt'), 'mine');
  expect((await jambeam(['new', 'full'], { cwd })).err).toContain('with other files in it: notes.txt');
  expect(readdirSync(at('full'))).toEqual(['notes.txt']);
  expect((await jambeam(['new', 'full/notes.txt'], { cwd })).err).toContain('found a file');
  symlinkSync(at('full'), at('link'));
  expect((await jambeam(['new', 'link'], { cwd })).err).toContain('link is a link');
  const { code, err } = await jambeam(['new', 'no/such/place'], { cwd });
  expect(code).toBe(2);
  expect(err).toContain("no/such/place can't be made: there is no folder no/such");
});

test('an empty folder is filled, and what was taken away comes back', async () => {
  mkdirSync(at('empty'));
  expect((await jambeam(['new', 'empty'], { cwd })).code).toBe(0);
  expect(readdirSync(at('empty')).sort()).toEqual(FILES);
});

test('--house gives the guesthouse of the repository, which is right as it stands', async () => {
  const { code, out } = await jambeam(['new', 'home', '--house'], { cwd });
  expect(code).toBe(0);
  expect(out).toContain('your own house');
  expect(readdirSync(at('home')).sort()).toEqual(['my-logic.ts', 'scenario.schema.json', 'scenario.yaml']);
  const body = (text: string) => text.slice(text.indexOf('\n'));
  expect(body(read('home', 'scenario.yaml'))).toBe(body(readFileSync('scenarios/guesthouse.yaml', 'utf8')));
  expect(parsed('home')).toMatchObject({ issues: [], cautions: [] });
});

test.each(['--width_m=0.8', '--sensor=ultrasonic-ranger'])('--house and %s don’t go together', async (other) => {
  const { code, err } = await jambeam(['new', 'both', '--house', other], { cwd });
  expect(code).toBe(2);
  expect(err).toContain(`${other.split('=')[0]} is for one doorway`);
});
