/** Cells that spreadsheets would run, and rows that are many. */
import fc from 'fast-check';
import { parse } from 'csv-parse/sync';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { CsvFile, cell } from '../../src/cli/csv-file.js';
import { folder } from './jambeam.js';

const dir = folder();

test('a cell that a spreadsheet takes for a formula is neutralised', () => {
  for (const first of ['=', '+', '-', '@', '\t', '\r']) {
    const text = `${first}cmd|' /C calc'!A0`;
    expect(parse(cell(text))).toEqual([[`'${text}`]]);
  }
});

test('any other text comes back as it was', () => {
  const text = fc.string({ unit: 'binary' }).filter((s) => s !== '' && !/^[=+\-@\t\r\uff0b\uff0d\uff1d\uff20]/.test(s));
  fc.assert(
    fc.property(text, (s) => {
      expect(parse(`${cell(s).toString()},end`)).toEqual([[s, 'end']]);
    }),
    { seed: 1 },
  );
});

test('rows cross the borders of chunks whole, in any script', () => {
  const file = new CsvFile(join(dir, 'long.csv'), ['n', 'name']);
  const names = ['Küche', '廊下', 'a"b', '🚪'].map(cell);
  for (let n = 0; n < 20_000; n++)
    file
      .whole(n)
      .text(names[n % 4]!)
      .endRow();
  file.close();
  const rows: string[][] = parse(readFileSync(join(dir, 'long.csv')), { from: 2 });
  expect(rows.length).toBe(20_000);
  expect(rows.every(([n, name], i) => Number(n) === i && name === ['Küche', '廊下', 'a"b', '🚪'][i % 4])).toBe(true);
});

test('numbers read as JavaScript writes them, decimals rounded, and cells may be empty or huge', () => {
  const path = join(dir, 'numbers.csv');
  const file = new CsvFile(path, ['whole', 'decimal', 'nothing', 'huge']);
  const huge = cell('x'.repeat(200_000));
  const whole = fc.oneof(fc.maxSafeInteger(), fc.integer({ min: -11, max: 1_000_001 }));
  const decimal = fc.double({ min: -1e4, max: 1e4, noNaN: true });
  const pairs = fc.sample(fc.tuple(whole, decimal), { seed: 1, numRuns: 2000 });
  for (const [n, x] of pairs) file.whole(n).decimal(x, 4).empty().text(cell('')).endRow();
  file.whole(1).decimal(0.5, 4).empty().text(huge).endRow();
  file.whole(2).decimal(2, 4).empty().text(cell('end')).endRow();
  file.close();
  const rows: string[][] = parse(readFileSync(path), { from: 2 });
  const expected = pairs.map(([n, x]) => [String(n), String(Math.round(x * 1e4) / 1e4 + 0), '', '']);
  expect(rows.slice(0, -2)).toEqual(expected);
  expect(rows.slice(-2)).toEqual([
    ['1', '0.5', '', huge.toString()],
    ['2', '2', '', 'end'],
  ]);
});

test('a file that exists is never written into', () => {
  expect(() => new CsvFile(join(dir, 'long.csv'), ['n'])).toThrow('EEXIST');
});
