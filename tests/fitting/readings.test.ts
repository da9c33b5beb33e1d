/** A bench's CSV: what is read, what is refused, and where it says so. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readBench } from '../../src/fitting/readings.js';
import { formatIssue } from '../../src/scenario/explain.js';

const said = (csv: string): string[] => readBench(csv, 'b.csv').issues.map(formatIssue);
const read = (csv: string) => {
  const { bench, issues } = readBench(csv, 'b.csv');
  expect(issues.map(formatIssue)).toEqual([]);
  return bench!;
};

describe('what is read', () => {
  test('a plain file: distances in metres, readings as written', () => {
    const { rows, truth, reads, decimals } = read('true_cm,reading_m\n30,0.305\n40,0.4\n');
    expect({ truth, reads, decimals }).toEqual({ truth: 'true_cm', reads: 'reading_m', decimals: 3 });
    expect(rows).toEqual([
      { distance_m: 0.3, reading: 0.305, line: 2, column: 4 },
      { distance_m: 0.4, reading: 0.4, line: 3, column: 4 },
    ]);
  });

  test('an empty cell, none and 0 are readings without echo', () => {
    expect(read('true_m,echo_us\n1,\n1,none\n1,None\n1,0\n1,0.0\n1,5800').rows.map((row) => row.reading)).toEqual([
      null,
      null,
      null,
      null,
      null,
      5800,
    ]);
  });

  test.each([
    ['semicolons', 'true_m;reading_mm\n1;999\n'],
    ['tabs', 'true_m\treading_mm\n1\t999\n'],
    ['columns the other way round', 'reading_mm,true_m\n999,1\n'],
    ['other columns beside them', 'note,true_m,reading_mm,when\nhello,1,999,noon\n'],
    ['a byte order mark, line ends of another system, empty lines', '\ufefftrue_m,reading_mm\r\n\r\n1,999\r\n'],
    ['comments', '# my bench\ntrue_m,reading_mm\n# first\n1,999\n'],
    ['quotes and blanks', '"true_m" , reading_mm\n "1" , "999" \n'],
    ['no line break at the end', 'true_m,reading_mm\n1,999'],
  ])('%s', (_, csv) => {
    expect(read(csv).rows.map(({ distance_m, reading }) => [distance_m, reading])).toEqual([[1, 999]]);
  });

  test('30 cm, 300 mm and 0.3 m are one distance', () => {
    const at = ['true_cm,reading_m\n30,1', 'true_mm,reading_m\n300,1', 'true_m,reading_m\n0.3,1'];
    expect(at.map((csv) => read(csv).rows[0]!.distance_m)).toEqual([0.3, 0.3, 0.3]);
  });
});

describe('what is refused, with line and column', () => {
  test('cells that are no numbers, all at once', () => {
    expect(said('true_m,reading_m\n1,x\nfar,2\n0,3\n1,-4\n1,5\n')).toEqual([
      'b.csv:2:3: reading_m: expected a number, found "x"\n  hint: a reading without echo is an empty cell, 0 or none',
      'b.csv:3:1: true_m: expected a number above 0, found "far"',
      'b.csv:4:1: true_m: expected a number above 0, found "0"',
      'b.csv:5:3: reading_m: expected a number, found "-4"\n  hint: a reading without echo is an empty cell, 0 or none',
    ]);
  });

  test('the column is where the cell begins, behind quotes, blanks and comments', () => {
    expect(said('# one\ntrue_m,note,reading_m\n1,"a, b",x\n')[0]).toMatch(/^b\.csv:3:10: /);
    expect(said('true_m,reading_m\n\n  1 ,   x\n')[0]).toMatch(/^b\.csv:3:9: /);
  });

  test.each([['NaN'], ['Infinity'], ['0x10'], ['1e999'], ['1 000'], ['--1'], ['1.2.3']])('%s is no number', (cell) => {
    expect(said(`true_m,reading_m\n1,${cell}\n`)[0]).toContain('b.csv:2:3: reading_m: expected a number, found');
  });

  test('decimal commas, by name or by count of cells', () => {
    expect(said('true_m;reading_m\n1;0,5\n')[0]).toContain('hint: with a point: 0.5');
    expect(said('true_m,reading_m\n1,0,5\n')[0]).toContain('hint: numbers are written with a point');
  });

  test.each([
    ['', 'b.csv:1:1: the file is empty'],
    ['true_m,reading_m\n', 'there is no row below the header'],
    ['1,2\n3,4\n', 'the header names no column of true distances'],
    ['true_m\n1\n', 'the header names no column of readings'],
    ['tru_m,reading_m\n1,2\n', 'is "tru_m" meant to be true_m?'],
    ['true_m,true_cm,volts\n1,1,1\n', 'b.csv:1:8: expected one column of true distances, found 2'],
    ['true_m,volts,adc_counts\n1,1,1\n', 'b.csv:1:14: expected one column of readings, found 2'],
    ['true_m,reading_m\n"1,2\n3,4\n', 'expected cells whose quotes are closed'],
    ['true_m,reading_m\n1,\ufffd\n', 'b.csv:2:1: expected plain text in UTF-8'],
    ['PK\u0003\u0004', 'b.csv:1:1: expected plain text in UTF-8'],
  ])('%j', (csv, words) => {
    expect(said(csv).join('\n')).toContain(words);
  });

  test('a hundred thousand rows are read and no more', () => {
    const rows = '1,2\n'.repeat(101_000);
    expect(said(`true_m,reading_m\n${rows}`)).toEqual(['b.csv:1:1: at most 100000 rows are read, found 101000']);
  });

  test('a line without end', () => {
    expect(said(`true_m,reading_m\n1,${'9'.repeat(20_000)}\n`)[0]).toContain('a line of at most 10000 characters');
  });
});

describe('hostile files', () => {
  test('nothing that moves a cursor or turns a line comes back', () => {
    const unsafe = (text: string) =>
      Array.from(text).some((c) => (c < ' ' && c !== '\n') || (c >= '\u007f' && c <= '\u009f') || c === '\u202e');
    for (const cell of ['\u001b[31mred', '\u202eturned', '\u0007', '\u009b2J']) {
      const answer = said(`true_m,reading_m\n1,${cell}\n`).join('\n');
      expect(answer).toContain('b.csv:2:');
      expect(unsafe(answer)).toBe(false);
    }
  });

  test('whatever the text, there is an answer and never a throw', () => {
    const line = fc.array(
      fc.constantFrom('1', ',', ';', '"', '\n', '\r', 'true_m', 'reading_m', ' ', '#', 'x', '\u0000'),
    );
    const text = fc.oneof(
      fc.string({ unit: 'binary' }),
      line.map((parts) => `true_m,reading_m\n${parts.join('')}`),
    );
    fc.assert(
      fc.property(text, (csv) => {
        const { bench, issues } = readBench(csv, 'b.csv');
        expect((bench === null) === issues.length > 0).toBe(true);
        for (const { place } of issues) expect(place!.line >= 1 && place!.column >= 1).toBe(true);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
