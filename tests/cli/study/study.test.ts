/** Studies on the command line: what they write, refuse, extend, part and join. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { tableFromIPC } from 'apache-arrow';
import { parse } from 'csv-parse/sync';
import { initSync, readParquet } from 'parquet-wasm/esm';
import { beforeAll, describe, expect, test } from 'vitest';
import { ratioEstimate } from '../../../src/score/estimates.js';
import { type StudySummary, studySummarySchema } from '../../../src/study/summary-schema.js';
import { jambeam } from '../jambeam.js';
import { cellsIn, folderWithStudy, resultsOf, studyText } from './folder.js';

const BASE = { hours: 0.5, replicates: '4' };

let cwd: string;
beforeAll(async () => {
  initSync({ module: readFileSync('node_modules/parquet-wasm/esm/parquet_wasm_bg.wasm') });
  cwd = folderWithStudy(BASE);
  expect(await jambeam(['study', 'study.yaml', '--out', 'whole', '--quiet', '--workers', '1'], { cwd })).toMatchObject({
    code: 0,
    err: '',
  });
});
const text = (file: string): string => readFileSync(join(cwd, 'whole', file), 'utf8');
const summary = (): StudySummary => studySummarySchema.parse(JSON.parse(text('study.json')));

describe('results', () => {
  const rows = (file: string): Record<string, string>[] =>
    parse(text(file), { columns: true }) as Record<string, string>[];

  test('a row for each design and replicate, and for each door and logic', () => {
    expect(
      rows('results.csv').map(({ design, replicate, spacing_m }) => `${design} ${replicate} ${spacing_m}`),
    ).toEqual([1, 2, 3].flatMap((d) => [1, 2, 3, 4].map((r) => `${d} ${r} ${[0.05, 0.1, 0.15][d - 1]}`)));
    expect(rows('results-doors.csv').map(({ door, logic }) => `${door} ${logic}`)).toEqual(
      Array.from({ length: 12 }, () => 'door four-level'),
    );
  });

  test.each(['results', 'results-doors'])('%s.parquet, read by another library, is %s.csv', (name) => {
    const table = tableFromIPC(readParquet(readFileSync(join(cwd, 'whole', `${name}.parquet`))).intoIPCStream());
    const fields = table.schema.fields.map((field) => field.name);
    expect(fields).toEqual(Object.keys(rows(`${name}.csv`)[0]!));
    const read = table.toArray().map((row) => fields.map((field) => (row as Record<string, unknown>)[field]));
    expect(read.map((row) => row.map((value) => (value === null ? '' : String(value as number | string))))).toEqual(
      rows(`${name}.csv`).map((row) => Object.values(row)),
    );
    const columns = JSON.parse(table.schema.metadata.get('columns') ?? '[]') as { name: string; description: string }[];
    expect(columns.map((column) => column.name)).toEqual(fields);
    for (const { description } of columns) expect(description).toMatch(/\.$/);
  });

  test('estimates in study.json are those of the rows', () => {
    for (const { number, metrics } of summary().designs) {
      const own = rows('results.csv').filter(({ design }) => Number(design) === number);
      const wrong = own.map(
        (row) => Number(row['missed']) + Number(row['reversed']) + Number(row['extra']) + Number(row['invented']),
      );
      const crossings = own.map((row) => Number(row['person_crossings']));
      expect(metrics['house.wrong_per_100']).toEqual(ratioEstimate(wrong, crossings, { scale: 100, nothing: '' }));
    }
  });

  test('the same crowds: every design meets the same people in a replicate', () => {
    const met = new Map<string, Set<string>>();
    for (const { replicate, visits, person_crossings } of rows('results.csv'))
      met.set(replicate!, (met.get(replicate!) ?? new Set()).add(`${visits} ${person_crossings}`));
    expect([...met.values()].map(({ size }) => size)).toEqual([1, 1, 1, 1]);
  });

  test('nothing of this computer is in them', () => {
    for (const file of ['results.csv', 'study.json', 'report.html', 'jambeam-study.json'])
      for (const path of [resolve('.'), cwd, '/tmp', '/home']) expect(text(file)).not.toContain(path);
  });
});

describe('in a folder that holds a study', () => {
  const again = (...more: string[]) =>
    jambeam(['study', 'study.yaml', '--out', 'whole', '--quiet', '--workers', '1', ...more], { cwd });

  test('the same one is not begun again, and --resume of a finished one changes nothing', async () => {
    expect(await again()).toMatchObject({
      code: 2,
      err: 'error: whole holds this study already\n  hint: go on with --resume; --force throws its cells away and begins anew\n',
    });
    const before = resultsOf(join(cwd, 'whole'));
    const cells = cellsIn(join(cwd, 'whole'));
    expect((await again('--resume')).code).toBe(0);
    expect(resultsOf(join(cwd, 'whole'))).toEqual(before);
    expect(cellsIn(join(cwd, 'whole'))).toBe(cells);
  });

  test('a changed study, a changed scenario, another version: refused with what changed', async () => {
    writeFileSync(join(cwd, 'study.yaml'), studyText({ ...BASE, spacings: [0.05, 0.1, 0.2] }));
    expect(await again('--resume')).toMatchObject({
      code: 2,
      err: 'error: whole holds a study that is not this one:\n    study.factors.0.values.2: 0.2, was 0.15\n  hint: --extend keeps the cells that both share; or choose another folder with --out\n',
    });
    writeFileSync(join(cwd, 'study.yaml'), studyText(BASE));
    const rods = readFileSync(join(cwd, 'rods.yaml'), 'utf8');
    writeFileSync(join(cwd, 'rods.yaml'), rods.replace('width_m: 0.9', 'width_m: 0.8'));
    expect((await again('--resume')).err).toContain('    scenario.doors.0.width_m: 0.8, was 0.9\n');
    writeFileSync(join(cwd, 'rods.yaml'), rods);
    const marker = text('jambeam-study.json');
    writeFileSync(join(cwd, 'whole', 'jambeam-study.json'), marker.replace(/"jambeam":"[^"]*"/, '"jambeam":"0.0.7"'));
    expect(await again('--resume')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/whole is a study of jambeam 0\.0\.7; this is /) as string,
    });
    writeFileSync(join(cwd, 'whole', 'jambeam-study.json'), marker);
  });

  test('--extend keeps finished cells when values and replicates are added', async () => {
    const path = folderWithStudy({ ...BASE, spacings: [0.1, 0.15], replicates: '2' });
    expect(
      (await jambeam(['study', 'study.yaml', '--out', 'out', '--quiet', '--workers', '1'], { cwd: path })).code,
    ).toBe(0);
    const journal = readFileSync(join(path, 'out', 'journal.jsonl'), 'utf8');
    writeFileSync(join(path, 'study.yaml'), studyText(BASE));
    expect(
      (await jambeam(['study', 'study.yaml', '--out', 'out', '--quiet', '--workers', '1', '--extend'], { cwd: path }))
        .code,
    ).toBe(0);
    expect(resultsOf(join(path, 'out'))).toEqual(resultsOf(join(cwd, 'whole')));
    const extended = readFileSync(join(path, 'out', 'journal.jsonl'), 'utf8');
    expect(extended.startsWith(journal)).toBe(true);
    expect(extended.split('\n').length - 1).toBe(12);
  });
});

describe('slices', () => {
  test('run apart and merged: the bytes of one machine', async () => {
    const path = folderWithStudy(BASE);
    for (const slice of ['1/2', '2/2'])
      expect(
        (await jambeam(['study', 'study.yaml', '--slice', slice, '--quiet', '--workers', '1'], { cwd: path })).code,
      ).toBe(0);
    const half = await jambeam(['merge', 'study-2-of-2.study', '--out', 'half'], { cwd: path });
    expect(half).toMatchObject({
      code: 0,
      out: expect.stringContaining('4 of 12 replicates are there; 2 designs are not finished') as string,
    });
    // The order in which slices are named is of no matter, nor that one is named twice.
    const all = ['study-2-of-2.study', 'study-1-of-2.study', 'study-2-of-2.study'];
    expect((await jambeam(['merge', ...all, '--out', 'merged'], { cwd: path })).code).toBe(0);
    expect(resultsOf(join(path, 'merged'))).toEqual(resultsOf(join(cwd, 'whole')));
    writeFileSync(join(path, 'study.yaml'), studyText({ ...BASE, replicates: '3' }));
    expect(
      (await jambeam(['study', 'study.yaml', '--out', 'other', '--quiet', '--workers', '1'], { cwd: path })).code,
    ).toBe(0);
    expect(await jambeam(['merge', 'study-1-of-2.study', 'other', '--out', 'mixed'], { cwd: path })).toMatchObject({
      code: 2,
      err: expect.stringContaining('study.replicates: 3, was 4') as string,
    });
  });
});

describe('pick', () => {
  const pick = (...more: string[]) => jambeam(['pick', 'whole', ...more], { cwd });

  test('the cheapest that surely meets it, or none', async () => {
    const { designs } = summary();
    const { value } = designs[2]!.metrics['house.wrong_per_100']!;
    const far = await pick('--want', `house.wrong_per_100 < ${value! * 3}`, '--json');
    expect(JSON.parse(far.out)).toMatchObject({ tested: 3, meeting: [1, 2, 3], picked: { design: 1 } });
    const none = await pick('--want', 'house.wrong_per_100 < 0.1');
    expect(none).toMatchObject({
      code: 0,
      out: expect.stringMatching(/^None of 3 designs surely meets house\.wrong_per_100 < 0\.1\./) as string,
    });
  });

  test.each([
    [[], '--want: expected what the design must meet'],
    [['--want', 'house.wrong_per_100'], '--want: expected METRIC < NUMBER'],
    [['--want', 'house.right_per_100 < 1'], '--want house.right_per_100: no estimate'],
    [
      ['--want', 'house.wrong_per_100 < 1', '--least', 'price'],
      '--least: expected cost, holes, cable_m, hours, found "price"',
    ],
  ])('%j is refused', async (options, words) => {
    expect(await pick(...options)).toMatchObject({ code: 2, err: expect.stringContaining(words) as string });
  });
});

describe('check', () => {
  test('says how many designs, how long, how big; and which factor changes the crowd', async () => {
    const path = folderWithStudy(BASE);
    writeFileSync(
      join(path, 'study.yaml'),
      studyText({ ...BASE, rest: 'where: [spacing_m < 0.12]\n' }).replace(
        'replicates',
        '  - { key: doors.*.width_m, values: [0.8, 0.9] }\nreplicates',
      ),
    );
    const { code, out } = await jambeam(['check', 'study.yaml'], { cwd: path });
    expect(code).toBe(0);
    expect(out).toMatch(/^rods: 4 designs, 2 combinations left out by conditions\n/);
    expect(out).toMatch(/width_m: 0\.8, 0\.9 .*it changes the crowd itself: unpaired/);
    expect(out).toMatch(/In all 16 replicates: \d+ s on \d+ cores\./);
    expect(out).toMatch(/MB of CSV/);
  });
});

test('all that is wrong with a study is said at once, with its place', async () => {
  const path = folderWithStudy(BASE);
  writeFileSync(
    join(path, 'study.yaml'),
    'format: 1\nname: x\nscenario: rods.yaml\nfactors:\n  - { key: doors.*.pair.hight_m, values: [1] }\n  - { key: doors.*.pair.spacing_m, from: 0.3, to: 0.1, step: 0.1 }\nwhere: [spacing_m <]\nrank_by: house.right\n',
  );
  const { code, err } = await jambeam(['study', 'study.yaml'], { cwd: path });
  expect(code).toBe(2);
  expect(err).toMatch(/study\.yaml:6:5: factors\.2: from is 0\.3 and to is 0\.1: a range goes upwards/);
  rmSync(join(path, 'rods.yaml'));
  writeFileSync(join(path, 'study.yaml'), studyText(BASE));
  expect((await jambeam(['study', 'study.yaml'], { cwd: path })).err).toContain('rods.yaml: there is no such file');
});
