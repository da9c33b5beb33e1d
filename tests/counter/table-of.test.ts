/** The table that a chosen logic is. */
import { describe, expect, test } from 'vitest';
import type { AnyChoice } from '../../src/counter/schema.js';
import { compileTable } from '../../src/counter/table/compile.js';
import { starterTable } from '../../src/counter/table/starter.js';
import { tableOf, tableText } from '../../src/counter/table-of.js';

const own = { name: 'own', use: 'table', file: 'own.yaml' } as AnyChoice;

test('one of a file: its own', () => {
  const { table } = compileTable(starterTable(), 'table');
  expect(table).not.toBeNull();
  expect(tableOf(own, { 'own.yaml': starterTable() })).toEqual(table);
});

test('code of a user’s own has none, whatever the design holds', () => {
  for (const use of ['module', 'process'])
    expect(
      tableOf({ name: 'mine', use, file: 'own.yaml', command: 'own' } as unknown as AnyChoice, {
        'own.yaml': starterTable(),
      }),
    ).toBeNull();
});

describe('a design that doesn’t hold what it names', () => {
  test('no such file', () => {
    expect(() => tableOf(own, {})).toThrow(/no text for the table "own\.yaml"/);
    expect(() => tableText('toString', {})).toThrow(/no text for the table "toString"/);
  });

  test('a file that is no table: each fault with its line', () => {
    expect(() => tableOf(own, { 'own.yaml': 'states: 3\n' })).toThrow(/^tableOf: \d+: /);
  });
});
