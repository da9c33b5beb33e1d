/** Benches that look right cell by cell and can't be: wrong units, too few distances, too few readings. */
import { describe, expect, test } from 'vitest';
import { type FitKind } from '../../src/fitting/bench.js';
import { dataIssues } from '../../src/fitting/checks.js';
import { readBench } from '../../src/fitting/readings.js';
import { formatIssue } from '../../src/scenario/explain.js';

const DISTANCES = [0.1, 0.2, 0.4, 0.8];

/** Six readings at each distance, by formula; a hundredth of scatter. */
function csv(header: string, write: (d: number, scatter: number) => string, distances: readonly number[] = DISTANCES) {
  const rows = distances.flatMap((d) => [0.99, 0.995, 1, 1, 1.005, 1.01].map((scatter) => write(d, scatter)));
  return `${header}\n${rows.join('\n')}\n`;
}

function said(text: string, kind: FitKind, adc_bits = 10): string {
  const { bench, issues } = readBench(text, 'b.csv');
  expect(issues).toEqual([]);
  return dataIssues(bench!, { kind, adc_bits, adc_reference_v: 5 }).map(formatIssue).join('\n');
}

const ULTRASONIC = 'ultrasonic-ranger';
const TRIANGULATION = 'triangulation-ranger';
const volts = (d: number) => 0.24 / (d + 0.01);

describe('units', () => {
  test('right ones pass', () => {
    expect(
      said(
        csv('true_m,reading_m', (d, s) => `${d},${d * s}`),
        ULTRASONIC,
      ),
    ).toBe('');
    expect(
      said(
        csv('true_cm,reading_mm', (d, s) => `${d * 100},${d * s * 1000}`),
        'time-of-flight-ranger',
      ),
    ).toBe('');
    expect(
      said(
        csv('true_m,echo_us', (d, s) => `${d},${(d * s * 2e6) / 343}`),
        ULTRASONIC,
      ),
    ).toBe('');
    expect(
      said(
        csv('true_mm,volts', (d, s) => `${d * 1000},${volts(d) * s}`),
        TRIANGULATION,
      ),
    ).toBe('');
  });

  test.each([
    ['reading_m', 1000, 'millimetres: is the column reading_mm?'],
    ['reading_m', 100, 'centimetres'],
    ['reading_m', 10, 'decimetres'],
    ['reading_mm', 1, 'metres: is the column reading_m?'],
    ['reading_mm', 100, 'centimetres'],
    ['reading_mm', 1e6, 'micrometres'],
    ['reading_mm', 2e6 / 343, 'echo times'],
    ['echo_us', 2e9 / 343, 'nanoseconds'],
    ['echo_us', 2e3 / 343, 'milliseconds'],
    ['echo_us', 2 / 343, 'seconds: multiply by 1000000'],
    ['echo_us', 1e6 / 343, 'one way'],
    ['echo_us', 100, 'centimetres'],
    ['echo_us', 1000, 'millimetres'],
    ['echo_us', 1, 'metres: is the column reading_m?'],
  ])('%s written %s times metres', (column, factor, words) => {
    const text = said(
      csv(`true_m,${column}`, (d, s) => `${d},${d * s * factor}`),
      ULTRASONIC,
    );
    expect(text).toMatch(new RegExp(`^b\\.csv:1:8: ${column}: at 0\\.8 m the median reading is `));
    expect(text).toContain(words);
  });

  test.each([
    ['true_m', 100, 'centimetres: is the column true_cm?'],
    ['true_m', 1000, 'millimetres: is the column true_mm?'],
    ['true_mm', 1, 'metres: is the column true_m?'],
    ['true_cm', 1, 'metres: is the column true_m?'],
  ])('%s written %s times metres is told as the true distance, and alone', (column, factor, words) => {
    const text = said(
      csv(`${column},reading_m`, (d, s) => `${d * factor},${d * s}`),
      ULTRASONIC,
    );
    expect(text).toMatch(new RegExp(`^b\\.csv:1:1: ${column}: `));
    expect(text).toContain(words);
    expect(text.match(/b\.csv/g)).toHaveLength(1);
  });

  test('a reading off by no unit at all is refused without a guess', () => {
    expect(
      said(
        csv('true_m,reading_m', (d, s) => `${d},${d * s * 4}`),
        ULTRASONIC,
      ),
    ).toContain('from the front of the ranger');
  });

  test('counts beyond the converter, counts with decimals, counts and millivolts as volts', () => {
    const counts = (bits: number) =>
      csv('true_m,adc_counts', (d, s) => `${d},${Math.floor(((volts(d) * s) / 5) * 2 ** bits)}`);
    expect(said(counts(10), TRIANGULATION)).toBe('');
    expect(said(counts(12), TRIANGULATION, 12)).toBe('');
    const beyond = said(counts(12), TRIANGULATION);
    expect(beyond).toMatch(/^b\.csv:7:5: adc_counts: 10 bits count to 1023, found \d{4}/);
    expect(beyond).toContain('--adc-bits 11');
    expect(
      said(
        csv('true_m,adc_counts', (d, s) => `${d},${volts(d) * s}`),
        TRIANGULATION,
      ),
    ).toContain('expected whole numbers');
    expect(said(counts(10).replace('adc_counts', 'volts'), TRIANGULATION)).toContain('is the column adc_counts?');
    expect(
      said(
        csv('true_m,volts', (d, s) => `${d},${volts(d) * s * 1000.1}`),
        TRIANGULATION,
      ),
    ).toContain('millivolts: divide by 1000');
  });

  test('a column that this kind does not give', () => {
    const text = said(
      csv('true_m,volts', (d) => `${d},${volts(d)}`),
      ULTRASONIC,
    );
    expect(text).toContain('an ultrasonic-ranger gives reading_m or reading_mm or echo_us, found volts');
    expect(text).toContain('what a triangulation-ranger gives');
  });
});

describe('distances and rows', () => {
  const straight = (distances: readonly number[]) => csv('true_m,reading_m', (d, s) => `${d},${d * s}`, distances);

  test('one distance', () => {
    expect(said(straight([0.4]), ULTRASONIC)).toBe(
      'b.csv:1:1: all rows are at one distance, 0.4 m: a curve needs at least 3',
    );
  });

  test('fewer distances than a curve needs', () => {
    expect(said(straight([0.4, 0.8]), ULTRASONIC)).toContain(
      '2 parameters of the curve need at least 3 distances, found 2',
    );
    expect(said(straight([0.2, 0.4, 0.8]), ULTRASONIC)).toBe('');
    const three = csv('true_m,volts', (d, s) => `${d},${volts(d) * s}`, [0.2, 0.4, 0.8]);
    expect(said(three, TRIANGULATION)).toContain('3 parameters of the curve need at least 4 distances, found 3');
  });

  test('too few readings at a distance, each distance told', () => {
    const text = said(`${straight(DISTANCES)}0.5,0.5\n0.6,0.6\n`, ULTRASONIC);
    expect(text).toContain('b.csv:26:5: at 0.5 m there are 1 readings with an echo, expected at least 5');
    expect(text).toContain('b.csv:27:5: at 0.6 m');
  });

  test('a distance where most is silent is out of range, not dropping out', () => {
    const text = said(`${straight(DISTANCES)}${'3,\n'.repeat(7)}${'3,3\n'.repeat(6)}`, ULTRASONIC);
    expect(text).toContain('at 3 m only 6 of 13 readings have an echo');
  });

  test('nearer than the fold; and a curve that rises', () => {
    const fold = csv('true_m,volts', (d, s) => `${d},${(d < 0.1 ? 1.1 : volts(d)) * s}`, [0.05, ...DISTANCES]);
    expect(said(fold, TRIANGULATION)).toContain('readings at 0.05 m are lower than at 0.1 m');
    expect(
      said(
        csv('true_m,volts', (d, s) => `${d},${d * s}`),
        TRIANGULATION,
      ),
    ).toContain('readings grow with distance');
  });

  test('readings that never change at a distance are legal', () => {
    expect(
      said(
        csv('true_m,reading_m', (d) => `${d},${d}`),
        ULTRASONIC,
      ),
    ).toBe('');
  });
});
