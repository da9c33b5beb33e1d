/** The built-in logics as tables: the shipped files to the letter, and equal to the code with any timeouts. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeLogic } from '../../../src/counter/make-logic.js';
import { type LogicChoice, logicSchema } from '../../../src/counter/schema.js';
import { builtInTable } from '../../../src/counter/table/built-in.js';
import { machineOf } from '../../../src/counter/table/machine.js';
import { tableOf } from '../../../src/counter/table-of.js';
import { instants, playInstants } from '../helpers.js';

const USES = ['first-broken', 'four-level', 'hold-off'] as const;
const NONE = { tables: {} };

describe.each(USES)('%s', (use) => {
  test('with its default timeouts it is the shipped table, to the letter', () => {
    const file = new URL(`../../../scenarios/tables/${use}.yaml`, import.meta.url);
    expect(builtInTable(logicSchema.parse({ use }) as Exclude<LogicChoice, { use: 'table' }>)).toBe(
      readFileSync(file, 'utf8'),
    );
  });

  test('with any timeouts it tallies as the code does', () => {
    // Of the order of the pauses between instants, so that timeouts come in time, exactly in time and too late.
    const timeout_ms = fc.oneof(fc.constantFrom(200, 400, 1000), fc.double({ min: 1, max: 3000, noNaN: true }));
    fc.assert(
      fc.property(timeout_ms, timeout_ms, instants(), (timeout, hold, all) => {
        const hold_off = use === 'hold-off' ? { hold_off_ms: hold } : {};
        const choice = logicSchema.parse({ use, timeout_ms: timeout, ...hold_off });
        const table = tableOf(choice, {})!;
        expect(playInstants(machineOf(table), all)).toEqual(playInstants(makeLogic(choice, NONE), all));
      }),
      { seed: 31, numRuns: 200 },
    );
  });
});

test('a table is itself, and code of the user’s own is none', () => {
  const text = readFileSync(new URL('../../../scenarios/my-logic.yaml', import.meta.url), 'utf8');
  const choice = logicSchema.parse({ use: 'table', file: 'mine.yaml' });
  expect(tableOf(choice, { 'mine.yaml': text })?.name).toBe('my-table');
  expect(tableOf({ use: 'module', file: 'mine.ts' }, {})).toBeNull();
  expect(tableOf({ use: 'process', command: './mine' }, {})).toBeNull();
  expect(() => tableOf(choice, {})).toThrow('no text for the table');
});
