/** `jambeam run`: what it writes, and that it writes the same again. */
import { parse } from 'csv-parse/sync';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { designFromJson } from '../../src/scenario/design-json.js';
import { metricsSchema } from '../../src/score/metrics-schema.js';
import { folderWithDoor, jambeam } from './jambeam.js';

const cwd = folderWithDoor();
const read = (dir: string, file: string): string => readFileSync(join(cwd, dir, file), 'utf8');
const rows = (dir: string, file: string): Record<string, string>[] => parse(read(dir, file), { columns: true });
const metricsOf = (dir: string) => metricsSchema.parse(JSON.parse(read(dir, 'metrics.json')));

beforeAll(async () => {
  const first = await jambeam(['run', 'door.yaml', '--edges'], { cwd });
  expect(first).toMatchObject({ code: 0, err: '' });
  expect(first.out).toContain('door front');
  expect(first.out).toContain('door.run/report.html');
});

test('the folder is named after the scenario and holds what the help says', () => {
  expect(readdirSync(join(cwd, 'door.run')).sort()).toEqual([
    'design.json',
    'edges.csv',
    'figures.json',
    'jambeam-run.json',
    'metrics.json',
    'passages.csv',
    'report.html',
    'tallies.csv',
  ]);
});

test('the CSV files have their columns, and as many rows as the metrics count', () => {
  const header = (file: string) => read('door.run', file).split('\n', 1)[0];
  expect(header('passages.csv')).toBe(
    'replicate,number,door,body,who,stature_m,persons,kind,direction,enter_us,cross_us,leave_us,sort,entry',
  );
  expect(header('tallies.csv')).toBe('replicate,door,logic,time_us,direction');
  expect(header('edges.csv')).toBe('replicate,door,beam,time_us,level');
  const metrics = metricsOf('door.run');
  const passages = rows('door.run', 'passages.csv');
  expect(passages.length).toBe(metrics.house.visits);
  const crossed = passages.filter(({ cross_us }) => cross_us !== '');
  expect(crossed.reduce((sum, { persons }) => sum + Number(persons), 0)).toBe(metrics.house.person_crossings);
  for (const { logic, tallies } of metrics.doors)
    expect(rows('door.run', 'tallies.csv').filter((row) => row['logic'] === logic).length).toBe(tallies);
});

test('times are whole microseconds, in order within a replicate, and a passage enters before it leaves', () => {
  const passages = rows('door.run', 'passages.csv');
  expect(passages.length).toBeGreaterThan(20);
  let before = { replicate: 0, enter: 0 };
  for (const row of passages) {
    const [replicate, enter, leave] = [row['replicate'], row['enter_us'], row['leave_us']].map(Number);
    expect([replicate, enter, leave].every(Number.isInteger)).toBe(true);
    expect(enter).toBeLessThan(leave as number);
    if (replicate === before.replicate) expect(enter).toBeGreaterThanOrEqual(before.enter);
    before = { replicate: replicate as number, enter: enter as number };
  }
});

test('every beam of edges.csv goes from broken to clear and back', () => {
  const level = new Map<string, string>();
  for (const row of rows('door.run', 'edges.csv')) {
    const beam = `${row['replicate']} ${row['door']} ${row['beam']}`;
    expect(row['level']).toBe((level.get(beam) ?? '0') === '0' ? '1' : '0');
    level.set(beam, row['level'] as string);
  }
  expect(new Set(level.values())).toEqual(new Set(['0']));
});

test('run again, the same scenario replaces its own folder with the same bytes, and without --edges the file goes', async () => {
  const files = ['design.json', 'passages.csv', 'tallies.csv', 'metrics.json', 'figures.json', 'report.html'];
  const before = files.map((file) => read('door.run', file));
  expect((await jambeam(['run', 'door.yaml'], { cwd })).code).toBe(0);
  expect(files.map((file) => read('door.run', file))).toEqual(before);
  expect(readdirSync(join(cwd, 'door.run'))).not.toContain('edges.csv');
  expect(readdirSync(cwd).sort()).toEqual(['door.run', 'door.yaml', 'my-logic.yaml']);
});

test('--json prints metrics.json and nothing else', async () => {
  const { out, err } = await jambeam(['run', 'door.yaml', '--json', '--out', 'json.run'], { cwd });
  expect(err).toBe('');
  expect(JSON.parse(out)).toEqual(JSON.parse(read('json.run', 'metrics.json')));
});

test('seed, extent and --set reach the design; the seed may be any text', async () => {
  const args = [
    '--seed',
    "it's: {a} seed",
    '--replicates',
    '1',
    '--days',
    '0.5',
    '--set',
    'doors.*.beams.*.height_m=1.3',
  ];
  expect((await jambeam(['run', 'door.yaml', '--out', 'set.run', ...args], { cwd })).code).toBe(0);
  const { design } = designFromJson(read('set.run', 'design.json'));
  expect(design).toMatchObject({ seed: "it's: {a} seed", replicates: 1, hours: 12 });
  expect(design?.doors[0]?.beams.map(({ height_m }) => height_m)).toEqual([1.3, 1.3]);
  expect(metricsOf('set.run')).toMatchObject({ seed: "it's: {a} seed", replicates: 1, hours: 12 });
});

test('a seed is a text: 7 on the command line and 7 in the scenario are one seed, another is another crowd', async () => {
  const passages = async (seed: string) => {
    await jambeam(['run', 'door.yaml', '--out', 'seed.run', '--replicates', '1', '--seed', seed], { cwd });
    return read('seed.run', 'passages.csv');
  };
  const one = await passages('1');
  expect(read('door.run', 'passages.csv').startsWith(one)).toBe(true);
  expect(await passages('2')).not.toBe(one);
});

test('no file holds the time of day, the folder, the user or the machine', () => {
  for (const file of readdirSync(join(cwd, 'door.run'))) {
    const text = read('door.run', file);
    expect(text).not.toContain(cwd);
    expect(text).not.toMatch(/\b20\d\d-\d\d-\d\dT\d\d:/);
  }
});

test('error rates that a ledger weighs by are learnt in the run and kept in design.json; its report can be made again', async () => {
  const run = await jambeam(['run', 'door.yaml', '--out', 'learnt.run', '--set', 'ledgers=[raw, likelihood]'], { cwd });
  expect(run.code).toBe(0);
  const { design } = designFromJson(read('learnt.run', 'design.json'));
  expect(design?.calibration?.length).toBe(design!.doors.length * design!.logics.length);
  const report = read('learnt.run', 'report.html');
  // The scenario it shows runs again: what was learnt is no key of a scenario.
  expect(report).not.toContain('calibration:');
  expect((await jambeam(['report', 'learnt.run'], { cwd })).code).toBe(0);
  expect(read('learnt.run', 'report.html')).toBe(report);
});
