/** `jambeam fit` as a builder types it: a bench's CSV in, a profile and a chart out, and nothing of theirs harmed. */
import { existsSync, mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { Stream } from '../../src/engine/stream.js';
import { type FitOptions, fitCommand } from '../../src/cli/fit.js';
import type { Io } from '../../src/cli/io.js';
import { UserProblem } from '../../src/cli/problem.js';
import { sensorSchema } from '../../src/sensors/schema.js';
import { benchCsv } from '../fitting/bench-data.js';
import { folder, jambeam } from './jambeam.js';

const cwd = folder();
const at = (...parts: string[]): string => join(cwd, ...parts);
const read = (...parts: string[]): string => readFileSync(at(...parts), 'utf8');
const fit = (...args: string[]) => jambeam(['fit', ...args], { cwd });
const TRIANGULATION = ['--kind', 'triangulation-ranger'];

beforeAll(() => {
  const truth = {
    distances_m: [0.1, 0.15, 0.2, 0.3, 0.5, 0.8],
    rows: 30,
    stray_share: 0.05,
    dropout_share: 0.05,
    range_m: [0.1, 0.8],
    reads: (d: number) => 0.05 + 0.24 / (d + 0.012),
    sd: () => 0.008,
    write: (v: number) => String(Math.floor((v / 3.3) * 4096)),
  } as const;
  writeFileSync(at('bench.csv'), benchCsv('true_m,adc_counts', truth, Stream.root('cli')));
});

describe('a bench', () => {
  const converter = ['--adc-bits', '12', '--adc-reference-v', '3.3'];

  test('becomes a profile that a sensor can be made of, a chart beside it, and a table to read', async () => {
    const { code, out, err } = await fit('bench.csv', ...TRIANGULATION, ...converter, '--out', 'mine.yaml');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const keys = parse(read('mine.yaml')) as Record<string, unknown>;
    const sensor = sensorSchema.parse(keys);
    expect(sensor).toMatchObject({ kind: 'triangulation-ranger', adc_bits: 12, adc_reference_v: 3.3 });
    expect(read('mine.svg')).toMatch(/^<svg /);
    for (const words of ['gain_v_m', 'offset_m', 'base_v', 'noise_v', 'stray_share', 'dropout_share', '95 % interval'])
      expect(out).toContain(words);
    expect(out).toContain('correlations');
    expect(out).toContain('stand for one another');
    expect(out).toMatch(/\d+ readings more likely strays than not, \d+ without echo/);
    expect(out).toMatch(/Wrote mine\.yaml\nand {3}mine\.svg/);
  });

  test('gives the same bytes again, and only writes over what is there when told to', async () => {
    const before = [read('mine.yaml'), read('mine.svg')];
    const again = await fit('bench.csv', ...TRIANGULATION, ...converter, '--out', 'mine.yaml');
    expect(again.code).toBe(2);
    expect(again.err).toContain('mine.yaml is there already, and it may be your work: nothing was written');
    writeFileSync(at('mine.yaml'), 'edited\n');
    const forced = [...TRIANGULATION, ...converter, '--out', 'mine.yaml', '--chart', 'picture.svg', '--force'];
    expect((await fit('bench.csv', ...forced)).code).toBe(0);
    expect([read('mine.yaml'), read('picture.svg')]).toEqual(before);
  });
});

describe('what is refused, with exit code 2 and nothing written', () => {
  const refused = async (args: readonly string[], words: string) => {
    const before = readdirSync(cwd).sort();
    const { code, out, err } = await fit(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(words);
    expect(err).not.toMatch(/ {4}at |\.js:/);
    expect(readdirSync(cwd).sort()).toEqual(before);
    return err;
  };

  test('all missing options at once', async () => {
    const err = await refused([], 'expected a file of readings, found none');
    expect(err).toContain('--kind is missing');
    expect(err).toContain('--out is missing');
  });

  test('cells that are no numbers, with places, twenty at most', async () => {
    writeFileSync(at('bad.csv'), `true_m,volts\n${'1,x\n'.repeat(50)}`);
    const err = await refused(
      ['bad.csv', ...TRIANGULATION, '--out', 'a.yaml'],
      'bad.csv:2:3: volts: expected a number, found "x"',
    );
    expect(err).toContain('and 30 more problems');
    expect(err).toContain('nothing was done');
  });

  test('a file too large, before it is read', async () => {
    writeFileSync(at('large.csv'), `true_m,volts\n${'1,1\n'.repeat(2_200_000)}`);
    await refused(
      ['large.csv', ...TRIANGULATION, '--out', 'a.yaml'],
      'expected readings in CSV of at most 8 MB, found 8.4 MB',
    );
  });

  test('a name that would turn or hide what is printed', async () => {
    const name = 'a\u001b[31m\u202eb.csv';
    writeFileSync(at(name), 'true_m,volts\n1,x\n');
    const err = await refused([name, ...TRIANGULATION, '--out', 'a.yaml'], '2:3: volts: expected a number');
    expect(err.includes('\u001b') || err.includes('\u202e')).toBe(false);
  });

  test('a link is never followed', async () => {
    symlinkSync(at('bench.csv'), at('link.yaml'));
    await refused(['bench.csv', ...TRIANGULATION, '--out', 'link.yaml', '--force'], 'link.yaml is a link');
  });

  test('what no sensor can have: a voltage curve of something else', async () => {
    const rows = [0.1, 0.2, 0.4, 0.8].flatMap((d) => Array.from({ length: 6 }, (_, i) => `${d},${9 - d + i / 1000}`));
    writeFileSync(at('odd.csv'), `true_m,volts\n${rows.join('\n')}\n`);
    await refused(['odd.csv', ...TRIANGULATION, '--out', 'a.yaml'], 'odd.csv:1:8: ');
  });
});

describe('every option that can be wrong', () => {
  const io = { out: () => undefined, err: () => undefined } as unknown as Io;
  const said = async (file: string, options: FitOptions): Promise<unknown> => {
    const paths = Object.entries(options).map(([key, path]) => [
      key,
      key === 'out' || key === 'chart' ? at(String(path)) : path,
    ]);
    return fitCommand(at(file), Object.fromEntries(paths) as FitOptions, io).catch((error: unknown) => error);
  };
  const kind = 'triangulation-ranger';

  test.each<[string, FitOptions, string]>([
    [
      'bench.csv',
      { kind: 'radar', out: 'a.yaml' },
      '--kind: expected one of ultrasonic-ranger, triangulation-ranger or',
    ],
    ['bench.csv', { kind: 'light-barrier', out: 'a.yaml' }, '--kind: expected one of'],
    ['bench.csv', { kind, out: 'a.txt' }, '--out: expected a name that ends in .yaml'],
    ['bench.csv', { kind, out: 'no/a.yaml' }, 'there is no folder'],
    ['bench.csv', { kind, out: 'a.yaml', chart: 'bench.csv', force: true }, 'is the file of readings'],
    ['bench.csv', { kind, out: 'a.yaml', chart: 'a.yaml' }, 'name the same file'],
    ['bench.csv', { kind, out: 'a.yaml', adcBits: '10.5' }, '--adc-bits: expected a whole number'],
    ['bench.csv', { kind, out: 'a.yaml', adcBits: '99' }, '--adc-bits: expected 6 to 24'],
    ['bench.csv', { kind, out: 'a.yaml', adcReferenceV: '230' }, '--adc-reference-v: expected 0.5 to 12'],
    ['bench.csv', { kind, out: 'a.yaml', temperatureC: 'warm' }, '--temperature-c: expected a number'],
    ['nothing.csv', { kind, out: 'a.yaml' }, 'there is no such file'],
    ['.', { kind, out: 'a.yaml' }, 'expected readings in CSV, found a folder'],
    ['bench.csv', { kind, out: 'a.yaml' }, '5: adc_counts: 10 bits count to 1023'],
    ['bench.csv', { kind: 'ultrasonic-ranger', out: 'a.yaml' }, 'bench.csv:1:8: an ultrasonic-ranger gives'],
  ])('%s %o', async (file, options, words) => {
    const error = await said(file, options);
    expect(error).toBeInstanceOf(UserProblem);
    expect((error as UserProblem).message).toContain(words);
    expect(existsSync(at('a.yaml')) || existsSync(at('a.svg'))).toBe(false);
  });

  test('what can not be written leaves neither of the two files', async () => {
    // The name itself is allowed; with what marks an unfinished file it is too long.
    const options = { kind, adcBits: '12', out: `${'a'.repeat(245)}.yaml`, chart: 'a.svg' };
    const before = readdirSync(cwd).sort();
    expect(String(await said('bench.csv', options))).toContain("can't be written: the name is too long");
    expect(readdirSync(cwd).sort()).toEqual(before);
  });
});

describe('--logger', () => {
  test('writes a program and a page, and typed twice changes nothing', async () => {
    const { code, out, err } = await fit('--logger', 'tools', '--kind', 'ultrasonic-ranger');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(readdirSync(at('tools')).sort()).toEqual(['BENCH.md', 'capture.c']);
    expect(out).toContain('read_sensor()');
    expect(read('tools', 'capture.c')).toContain('#define COLUMN "echo_us"');
    expect((await fit('--logger', 'tools', '--kind', 'ultrasonic-ranger')).code).toBe(0);
  });

  test('a program that was finished is not written over without --force', async () => {
    writeFileSync(at('tools', 'capture.c'), '/* mine */\n');
    const { code, err } = await fit('--logger', 'tools', '--kind', 'ultrasonic-ranger');
    expect(code).toBe(2);
    expect(err).toContain('tools holds capture.c already, and it may be your work: nothing was written');
    expect(read('tools', 'capture.c')).toBe('/* mine */\n');
    expect((await fit('--logger', 'tools', '--force')).code).toBe(0);
    expect(read('tools', 'capture.c')).toContain('read_sensor');
  });

  test('fits nothing besides, and makes no folder within a folder that is not there', async () => {
    expect((await fit('bench.csv', '--logger', 'other')).err).toContain(
      '--logger writes a program and a page, and fits nothing',
    );
    expect((await fit('--logger', 'no/such')).err).toContain('there is no folder no');
    expect((await fit('--logger', 'bench.csv')).err).toContain('expected a folder, found a file');
    mkdirSync(at('room'));
    writeFileSync(at('room', 'notes.txt'), 'mine');
    expect((await fit('--logger', 'room')).code).toBe(0);
    expect(readdirSync(at('room')).sort()).toEqual(['BENCH.md', 'capture.c', 'notes.txt']);
  });
});
