/** The capture program compiles as it is, and what it prints is what `jambeam fit` reads. */
import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { FIT_KINDS, givenBy } from '../../src/fitting/bench.js';
import { benchProtocol } from '../../src/fitting/logger/bench-protocol.js';
import { captureProgram } from '../../src/fitting/logger/capture.js';
import { readBench } from '../../src/fitting/readings.js';
import { NO_COMPILERS, compile, folderOf } from '../c-compilers.js';

function build(source: string): string {
  return compile('gcc', folderOf({ 'capture.c': source }), ['capture.c']);
}
const run = (program: string, input: string) => spawnSync(program, { input, encoding: 'utf8' });

describe.skipIf(NO_COMPILERS)('the capture program', () => {
  test.each([undefined, ...FIT_KINDS])('compiles without a warning for %s', (kind) => void build(captureProgram(kind)));

  test('as it stands every reading is without echo', () => {
    const { stdout, status } = run(build(captureProgram()), '300\n450\n\n');
    expect(status).toBe(0);
    const { bench, issues } = readBench(stdout, 'b.csv');
    expect(issues).toEqual([]);
    expect(bench!.rows.map((row) => row.reading)).toEqual(Array.from({ length: 60 }, () => null));
    expect([...new Set(bench!.rows.map((row) => row.distance_m))]).toEqual([0.3, 0.45]);
  });

  test('with a sensor in the hook its readings come out, the first five thrown away', () => {
    const hook = 'static long n = 1000;\n    n = n + 1;\n    return n % 7 == 0 ? NO_ECHO : n;';
    const source = captureProgram('ultrasonic-ranger').replace('return NO_ECHO;', hook);
    const { bench, issues } = readBench(run(build(source), '300\n').stdout, 'b.csv');
    expect(issues).toEqual([]);
    expect(bench!.reads).toBe('echo_us');
    const expected = Array.from({ length: 30 }, (_, i) => ((1006 + i) % 7 === 0 ? null : 1006 + i));
    expect(bench!.rows.map((row) => row.reading)).toEqual(expected);
  });
});

test("each kind's program names a column that this kind gives", () => {
  for (const kind of FIT_KINDS) {
    const column = /#define COLUMN "(\w+)"/.exec(captureProgram(kind))![1]!;
    expect(givenBy(column as 'volts', kind)).toBe(true);
  }
});

test('the protocol speaks of eyes, animals, low voltage, warm-up, target, distances and rows', () => {
  for (const words of [
    'IEC 62471',
    'Never stare',
    'cats and dogs',
    'Low voltage only',
    'Warm up',
    'target',
    'distances',
    'Thirty readings',
  ])
    expect(benchProtocol()).toContain(words);
});

test("the protocol's example of a file is one that is read", () => {
  const example = /( {4}true_mm,echo_us\n(?: {4}.*\n)+)/.exec(benchProtocol())![1]!.replaceAll(/^ {4}/gm, '');
  const { bench, issues } = readBench(example, 'b.csv');
  expect(issues).toEqual([]);
  expect(bench!.rows.map((row) => row.reading)).toEqual([1751, 1749, null]);
});
