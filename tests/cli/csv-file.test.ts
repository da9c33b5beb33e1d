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
      expect(parse(`${cell(s)},end`)).toEqual([[s, 'end']]);
    }),
    { seed: 1 },
  );
});

test('rows cross the borders of chunks whole, in any script', () => {
  const file = new CsvFile(join(dir, 'long.csv'), ['n', 'name']);
  const names = ['Küche', '廊下', 'a"b', '🚪'].map(cell);
  for (let n = 0; n < 20_000; n++) file.row(`${n},${names[n % 4]}`);
  file.close();
  const rows: string[][] = parse(readFileSync(join(dir, 'long.csv')), { from: 2 });
  expect(rows.length).toBe(20_000);
  expect(rows.every(([n, name], i) => Number(n) === i && name === ['Küche', '廊下', 'a"b', '🚪'][i % 4])).toBe(true);
});

test('a file that exists is never written into', () => {
  expect(() => new CsvFile(join(dir, 'long.csv'), ['n'])).toThrow('EEXIST');
});
