/** What a ledger suffers of a visit: the balance of what was counted against the truth. */
import { describe, expect, test } from 'vitest';
import { type NetErrors, addNetError, noNetErrors } from '../../src/score/net-errors.js';
import { judge, visit } from './builders.js';

const of = (truth: number, counted: number): NetErrors => {
  const net = noNetErrors();
  addNetError(net, truth, counted);
  return net;
};
const NONE = noNetErrors();

describe('a visit’s net error', () => {
  test.each([
    [1, 1, {}],
    [0, 0, {}],
    [-2, -2, {}],
    // One of two persons in one body is counted.
    [2, 1, { missed: 1 }],
    [-1, 0, { missed: 1 }],
    [1, 2, { invented: 1 }],
    [0, -1, { invented: 1 }],
    [1, -1, { reversed: 1 }],
    [-1, 1, { reversed: 1 }],
    // Two aboard, one counted the other way: one lost, one turned round.
    [2, -1, { reversed: 1, missed: 1 }],
    [1, -3, { reversed: 1, invented: 2 }],
  ])('%i true, %i counted', (truth, counted, expected) => {
    expect(of(truth, counted)).toEqual({ ...NONE, ...expected });
  });
});

test('somebody counted in and out again in one visit is wrong twice and moves nobody', () => {
  const back = visit({ kind: 'turn-back', cross_us: null });
  const { total, net } = judge(
    [back],
    [
      [500_000, 'forward'],
      [1_500_000, 'backward'],
    ],
  );
  expect(total.invented).toBe(2);
  expect(net).toEqual(NONE);
});

test('a tally for nobody is invented in both', () => {
  const { total, net } = judge([], [[500_000, 'forward']]);
  expect(total.invented).toBe(1);
  expect(net).toEqual({ ...NONE, invented: 1 });
});
