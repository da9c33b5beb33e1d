/** Cells are kept and sent flat; what comes back is what was meant, or is refused. */
import { expect, test } from 'vitest';
import { cellFrom, cellOf, flat, lengthOf, unflat } from '../../../src/study/cells/cell.js';
import { runReplicate } from '../../../src/simulate/replicate.js';
import { designOf } from '../studies.js';

const DESIGN = designOf(`format: 1
name: two doors
hours: 2
rooms: [{ name: hall, people_at_start: 3 }, { name: kitchen }]
doors:
  - { name: front, from: outside, to: hall, width_m: 0.9, pair: { height_m: 0.9, spacing_m: 0.1 }, traffic: { arrivals_per_hour: 60 } }
  - { name: inner, from: hall, to: kitchen, width_m: 0.8, pair: { height_m: 0.4, spacing_m: 0.1 }, traffic: { arrivals_per_hour: 20 } }
`);
const SHAPE = { doors: 2, rooms: 2, logics: 2, ledgers: 2 };
const CELL = cellOf(runReplicate(DESIGN, 1, {}).record);

test('there and back, over JSON', () => {
  const sent = JSON.parse(JSON.stringify(flat(CELL)));
  expect(sent.v).toHaveLength(lengthOf(SHAPE));
  expect(unflat(sent, SHAPE)).toEqual(CELL);
  expect(cellFrom(sent, SHAPE)).toEqual(CELL);
});

test('visits by who came add up to all visits', () => {
  const visits = CELL.doors.reduce((sum, logics) => sum + logics[0]!.total.visits, 0);
  expect(visits).toBeGreaterThan(50);
  expect(CELL.who.reduce((sum, one) => sum + one.visits, 0)).toBe(visits);
});

test.each([
  ['nothing', () => null],
  ['a list', () => []],
  ['one number too few', (c: ReturnType<typeof flat>) => ({ ...c, v: c.v.slice(1) })],
  ['a text among the numbers', (c: ReturnType<typeof flat>) => ({ ...c, v: ['1', ...c.v.slice(1)] })],
  ['no number', (c: ReturnType<typeof flat>) => ({ ...c, v: [Number.NaN, ...c.v.slice(1)] })],
  ['visits below zero', (c: ReturnType<typeof flat>) => ({ ...c, v: [-1, ...c.v.slice(1)] })],
  ['half a visit', (c: ReturnType<typeof flat>) => ({ ...c, v: [0.5, ...c.v.slice(1)] })],
  [
    'more missed than went through',
    (c: ReturnType<typeof flat>) => ({ ...c, v: [...c.v.slice(0, 2), 1e6, ...c.v.slice(3)] }),
  ],
  ['who came as a list', (c: ReturnType<typeof flat>) => ({ ...c, who: [1] })],
  ['who came without numbers', (c: ReturnType<typeof flat>) => ({ ...c, who: { adult: ['many', 0] } })],
])('%s is no cell', (_, spoil) => {
  expect(cellFrom(spoil(flat(CELL)), SHAPE)).toBeTypeOf('string');
});
