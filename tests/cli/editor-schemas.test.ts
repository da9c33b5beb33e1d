/**
 * What an editor would say. The schemas are JSON Schema, draft 2020-12, and are judged here by Ajv, an independent
 * validator: every file that comes with the project is right by it, and what our reader refuses for its shape, it refuses.
 */
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'yaml';
import { describe, expect, test } from 'vitest';
import { EDITOR_SCHEMAS, type WrittenFile } from '../../src/cli/editor-schemas.js';
import { compileTable } from '../../src/counter/table/compile.js';
import { starterTable } from '../../src/counter/table/starter.js';
import { Stream } from '../../src/engine/stream.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { studySchema } from '../../src/study/plan/schema.js';
import { benchCsv } from '../fitting/bench-data.js';
import { folder, jambeam } from './jambeam.js';

const ajv = new Ajv2020({ strict: false });
const validators = Object.fromEntries(
  Object.keys(EDITOR_SCHEMAS).map((file) => [
    file,
    ajv.compile(JSON.parse(readFileSync(`docs/${file}.schema.json`, 'utf8')) as object),
  ]),
);
const complaints = (file: WrittenFile, text: string): unknown => {
  const right = validators[file]!(parse(text));
  return right ? null : validators[file]!.errors;
};
const yamlIn = (path: string): string[] =>
  readdirSync(path)
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => join(path, name));

const tables = [...yamlIn('scenarios/tables'), 'scenarios/my-logic.yaml'];
const scenarios = yamlIn('scenarios').filter((path) => !tables.includes(path));
const studies = yamlIn('scenarios/studies');

describe.each([
  ['scenario', scenarios],
  ['study', studies],
  ['table', tables],
] as const)('%s: what comes with the project', (file, paths) => {
  test.each(paths)('%s has nothing an editor would underline', (path) => {
    expect(complaints(file, readFileSync(path, 'utf8'))).toBeNull();
  });
});

test('a profile that fit wrote has nothing an editor would underline', async () => {
  const cwd = folder();
  // An invented ranger: right on the average, 4 mm of noise.
  const truth = {
    distances_m: [0.2, 0.4, 0.6, 0.8, 1, 1.2, 1.5, 2],
    rows: 30,
    stray_share: 0.01,
    dropout_share: 0.02,
    range_m: [0.03, 4],
    reads: (d: number) => d * 1000,
    sd: () => 4,
    write: (reading: number) => String(Math.round(reading)),
  } as const;
  writeFileSync(join(cwd, 'readings.csv'), benchCsv('true_m,reading_mm', truth, Stream.root('profile')));
  const args = ['fit', 'readings.csv', '--kind', 'ultrasonic-ranger', '--temperature-c', '21'];
  expect((await jambeam([...args, '--out', 'mine.yaml'], { cwd })).code).toBe(0);
  expect(complaints('profile', readFileSync(join(cwd, 'mine.yaml'), 'utf8'))).toBeNull();
});

test('the line for editors leads to a schema, wherever there is one', () => {
  for (const path of [...scenarios, ...studies, ...tables]) {
    const named = /^# yaml-language-server: \$schema=(.*)$/m.exec(readFileSync(path, 'utf8'))?.[1];
    if (named === undefined) expect(path).toMatch(/^scenarios\/tables\//);
    else expect({ path, there: existsSync(resolve(dirname(path), named)) }).toEqual({ path, there: true });
  }
});

/** One slip each. The reader and the validator both refuse it. */
const SCENARIO_SLIPS: readonly (readonly [string, (text: string) => string])[] = [
  ['an unknown key', (text) => `${text}\ncolour: red\n`],
  ['a width of nothing', (text) => text.replace(/width_m: [\d.]+/, 'width_m: 0')],
  ['a number as a word', (text) => text.replace(/spacing_m: [\d.]+/, 'spacing_m: narrow')],
  ['a kind that is not there', (text) => text.replace('kind: through', 'kind: flying')],
  ['no name', (text) => text.replace(/^name: .*$/m, '')],
];
test.each(SCENARIO_SLIPS)('scenario: %s', (_, slip) => {
  const text = slip(starterScenario());
  expect(text).not.toBe(starterScenario());
  expect(parseScenario(text, 's.yaml', { readFile: starterTable }).issues).not.toEqual([]);
  expect(complaints('scenario', text)).not.toBeNull();
});

const TABLE_SLIPS: readonly (readonly [string, string, string])[] = [
  ['a pattern of other characters', 'on: "10"', 'on: "1a"'],
  ['two triggers in one rule', '{ stay: other }', '{ stay: other, on: "11", go: rest }'],
  ['a rule that leads nowhere', '{ on: "10", go: forward-1 }', '{ on: "10" }'],
  ['a timeout of no time', 'after_ms: 10000', 'after_ms: 0'],
  ['a tally sideways', 'tally: forward', 'tally: sideways'],
  ['no start', 'start: rest', '# start'],
  ['an unknown key', 'start: rest', 'start: rest\nsart: rest'],
  ['no beams', 'beams: [A, B]', 'beams: []'],
];
test.each(TABLE_SLIPS)('table: %s', (_, from, to) => {
  const text = starterTable().replace(from, to);
  expect(text).not.toBe(starterTable());
  expect(compileTable(text, 't.yaml').issues).not.toEqual([]);
  expect(complaints('table', text)).not.toBeNull();
});

test('table: patterns without quotes are as right as with them', () => {
  const text = starterTable().replaceAll(/on: "(\d\d)"/g, 'on: $1');
  expect(compileTable(text, 't.yaml').issues).toEqual([]);
  expect(complaints('table', text)).toBeNull();
});

const STUDY_SLIPS: readonly (readonly [string, string, string])[] = [
  ['an unknown key', 'format: 1', 'format: 1\nfactor: []'],
  ['no scenario', 'scenario: ../guesthouse.yaml', ''],
  ['replicates in words', 'replicates: 6', 'replicates: six'],
];
test.each(STUDY_SLIPS)('study: %s', (_, from, to) => {
  const whole = readFileSync('scenarios/studies/height-spacing-sensor.yaml', 'utf8');
  const text = whole.replace(from, to);
  expect(text).not.toBe(whole);
  expect(studySchema.safeParse(parse(text)).success).toBe(false);
  expect(complaints('study', text)).not.toBeNull();
});

test('profile: a key of another kind, and a kind that is not there', () => {
  expect(complaints('profile', 'kind: ultrasonic-ranger\nadc_bits: 10\n')).not.toBeNull();
  expect(complaints('profile', 'kind: radar\n')).not.toBeNull();
});

describe('keys --schema', () => {
  test.each(Object.keys(EDITOR_SCHEMAS))('%s prints what stands in docs', async (file) => {
    const { code, out } = await jambeam(['keys', '--schema', file], { cwd: folder() });
    expect({ code, out }).toEqual({ code: 0, out: readFileSync(`docs/${file}.schema.json`, 'utf8') });
  });
  test('anything else is refused with what there is', async () => {
    const { code, err } = await jambeam(['keys', '--schema', 'tabel'], { cwd: folder() });
    expect(code).toBe(2);
    expect(err).toContain('expected scenario, study, table or profile, found "tabel"');
    expect(err).toContain('did you mean table?');
  });
});
