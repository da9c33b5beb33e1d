import { describe, expect, test } from 'vitest';
import { logicInfo } from '../../src/counter/logic-info.js';
import { makeLogic } from '../../src/counter/make-logic.js';
import { BARE_LOGICS } from '../../src/counter/schema.js';
import { starterTable } from '../../src/counter/table/starter.js';
import { playBits } from './helpers.js';

describe('choosing a logic', () => {
  test('each choice is made, and named after what it uses unless it has a name', () => {
    const sources = { tables: { 'mine.yaml': starterTable() } };
    const made = [
      makeLogic({ use: 'first-broken', timeout_ms: 4000 }, sources),
      makeLogic({ use: 'four-level', timeout_ms: 4000, name: 'strict' }, sources),
      makeLogic({ use: 'hold-off', timeout_ms: 4000, hold_off_ms: 600 }, sources),
      makeLogic({ use: 'table', file: 'mine.yaml' }, sources),
      makeLogic({ use: 'table', file: 'mine.yaml', name: 'mine' }, sources),
    ];
    expect(made.map((logic) => logic.name)).toEqual(['first-broken', 'strict', 'hold-off', 'my-table', 'mine']);
    for (const logic of made) expect(playBits(logic, '00-10-11-01-00')).toEqual(['forward']);
  });

  test('a table is compiled once for a choice, and again when its text is another', () => {
    const choice = { use: 'table', file: 'mine.yaml' } as const;
    const of = (text: string) => makeLogic(choice, { tables: { 'mine.yaml': text } });
    const first = of(starterTable());
    expect(of(starterTable())).toBe(first);
    expect(of(starterTable().replace(/^name: .*$/m, 'name: another')).name).toBe('another');
    expect(of(starterTable()).name).toBe('my-table');
    expect(() => of('format: 2')).toThrow(/mine\.yaml:1/);
  });

  test('a table that is missing or broken is refused', () => {
    expect(() => makeLogic({ use: 'table', file: 'constructor' }, { tables: {} })).toThrow(/no text for the table/);
    expect(() => makeLogic({ use: 'table', file: 'x.yaml' }, { tables: { 'x.yaml': 'format: 2' } })).toThrow(
      /x\.yaml:1:9/,
    );
  });

  test('what can be chosen is listed with keys, units and defaults', () => {
    const info = logicInfo();
    expect(info.map(({ use }) => use)).toEqual([...BARE_LOGICS, 'table']);
    expect(info[2]?.keys.find(({ key }) => key === 'hold_off_ms')).toMatchObject({ unit: 'ms', default: 600 });
    expect(info.at(-1)?.keys.find(({ key }) => key === 'file')).toMatchObject({ required: true });
    for (const { description, defeated_by, keys } of info) {
      expect(description).not.toBe('');
      expect(defeated_by).not.toBe('');
      for (const key of keys) expect(key.description).not.toBe('');
    }
  });
});
