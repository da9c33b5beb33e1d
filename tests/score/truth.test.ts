import { expect, test } from 'vitest';
import { ROWS } from '../../src/score/metrics-schema.js';
import { rowOf, trueNetOf } from '../../src/score/truth.js';
import { visit } from './builders.js';

const row = (change: Parameters<typeof visit>[0]) => ROWS[rowOf(visit(change))];

test('a visit that leaves at the other end is a crossing in its direction, whatever it set out to do', () => {
  expect(row({ direction: 'forward' })).toBe('forward');
  expect(row({ direction: 'backward' })).toBe('backward');
  expect(row({ kind: 'linger' })).toBe('forward');
});

test('a visit that leaves where it came from turned back, unless it lingered', () => {
  for (const kind of ['turn-back', 'against', 'through', 'close-behind', 'abreast'] as const) {
    expect(row({ kind, cross_us: null })).toBe('turned back');
  }
  expect(row({ kind: 'linger', cross_us: null })).toBe('lingered');
});

test('with nobody aboard it is a thing, crossing or not', () => {
  expect(row({ persons: 0 })).toBe('thing');
  expect(row({ persons: 0, cross_us: null })).toBe('thing');
});

test('true net flow counts the persons aboard of crossing visits only', () => {
  expect(trueNetOf(visit({ persons: 2 }))).toBe(2);
  expect(trueNetOf(visit({ persons: 2, direction: 'backward' }))).toBe(-2);
  expect(Math.abs(trueNetOf(visit({ persons: 2, cross_us: null })))).toBe(0);
});
