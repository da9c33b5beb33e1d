import { describe, expect, test } from 'vitest';
import { DoorScorer } from '../../src/score/door-scorer.js';
import { cells, judge, visit } from './builders.js';

describe('one visit', () => {
  test('a tally the right way is right, the wrong way reversed, none missed', () => {
    expect(cells(judge([visit()], [[1_100_000, 'forward']]))).toEqual({ 'forward × forward': 1 });
    expect(cells(judge([visit()], [[1_100_000, 'backward']]))).toEqual({ 'forward × backward': 1 });
    expect(cells(judge([visit()], []))).toEqual({ 'forward × nothing': 1 });
  });

  test('a reversal is one wrong and two of drift', () => {
    const { total, net_error } = judge([visit()], [[1_100_000, 'backward']]);
    expect(total).toMatchObject({ missed: 0, reversed: 1, extra: 0, invented: 0 });
    expect(net_error).toBe(-2);
  });

  test('of two tallies the right one is taken, though the wrong one is nearer in time; the other is extra', () => {
    const counts = judge(
      [visit()],
      [
        [1_000_000, 'backward'],
        [1_900_000, 'forward'],
      ],
    );
    expect(cells(counts)).toEqual({ 'forward × forward': 1, 'forward × extra': 1 });
    expect(counts.net_error).toBe(-1);
  });

  test('an adult with an infant is two crossings: one tally leaves one missed', () => {
    const counts = judge([visit({ persons: 2 })], [[1_000_000, 'forward']]);
    expect(cells(counts)).toEqual({ 'forward × forward': 1, 'forward × nothing': 1 });
    expect(counts.total).toMatchObject({ visits: 1, crossings: 2, missed: 1 });
  });

  test('two in one body turning back are one entry: its first tally fills a direction, further ones are extra', () => {
    const turned = visit({ persons: 2, kind: 'turn-back', cross_us: null });
    expect(cells(judge([turned], []))).toEqual({ 'turned back × nothing': 1 });
    const counts = judge(
      [turned],
      [
        [500_000, 'backward'],
        [600_000, 'forward'],
        [700_000, 'forward'],
      ],
    );
    expect(cells(counts)).toEqual({ 'turned back × backward': 1, 'turned back × extra': 2 });
    expect(counts.total.invented).toBe(3);
  });

  test('the window ends with leaving plus the latency, both ends included', () => {
    const latency_us = 300_000;
    expect(cells(judge([visit()], [[2_300_000, 'forward']], latency_us))).toEqual({ 'forward × forward': 1 });
    expect(cells(judge([visit()], [[2_300_001, 'forward']], latency_us))).toEqual({
      'forward × nothing': 1,
      'nobody × forward': 1,
    });
    expect(cells(judge([visit({ enter_us: 10 })], [[9, 'backward']], latency_us))).toEqual({
      'forward × nothing': 1,
      'nobody × backward': 1,
    });
  });
});

describe('several visits', () => {
  const first = visit({ body: 1 });
  const second = visit({ number: 2, body: 2, enter_us: 600_000, direction: 'backward' });

  test('order is not forced: each takes the tally of its own direction, though they come the other way round', () => {
    const counts = judge(
      [first, second],
      [
        [1_500_000, 'backward'],
        [1_600_000, 'forward'],
      ],
    );
    expect(cells(counts)).toEqual({ 'forward × forward': 1, 'backward × backward': 1 });
  });

  test('one tally for two people abreast: the nearer in time has it, the other is missed', () => {
    const child = visit({ number: 2, body: 2, who: 'child', enter_us: 300_000 });
    const kinds = judge([first, child], [[1_200_000, 'forward']]).kinds;
    expect(kinds.map(({ who, missed }) => [who, missed])).toEqual([
      ['adult', 1],
      ['child', 0],
    ]);
  });

  test('at equal distance the lower body number has it', () => {
    const child = visit({ number: 2, body: 2, who: 'child', enter_us: 200_000 });
    const swapped = [visit({ body: 7 }), { ...child, body: 3 }];
    expect(judge([first, child], [[1_100_000, 'forward']]).kinds.map(({ missed }) => missed)).toEqual([0, 1]);
    expect(judge(swapped, [[1_100_000, 'forward']]).kinds.map(({ missed }) => missed)).toEqual([1, 0]);
  });

  test('a tally left over goes to a person who crosses before one who lingers, and before a thing', () => {
    const lingering = visit({ number: 2, body: 2, kind: 'linger', cross_us: null, leave_us: 60_000_000 });
    const thing = visit({ number: 3, body: 3, persons: 0, leave_us: 60_000_000 });
    const tallies = [
      [1_000_000, 'forward'],
      [1_500_000, 'forward'],
      [30_000_000, 'backward'],
    ] as const;
    expect(cells(judge([first, lingering, thing], tallies))).toEqual({
      'forward × forward': 1,
      'forward × extra': 1,
      'lingered × backward': 1,
      'thing × nothing': 1,
    });
    expect(cells(judge([thing], [[1_000_000, 'forward']]))).toEqual({ 'thing × forward': 1 });
  });

  test('tallies before, between and after visits are of nobody', () => {
    const later = visit({ number: 2, enter_us: 10_000_000 });
    const counts = judge(
      [visit({ enter_us: 1_000_000 }), later],
      [
        [0, 'forward'],
        [5_000_000, 'backward'],
        [90_000_000, 'forward'],
      ],
    );
    expect(cells(counts)).toEqual({ 'forward × nothing': 2, 'nobody × forward': 2, 'nobody × backward': 1 });
    expect(counts.total.invented).toBe(3);
  });
});

test('what comes too late is refused: it would be our own mistake', () => {
  const scorer = new DoorScorer(0, { visit() {}, nobody() {} });
  scorer.advance(5);
  expect(() => scorer.visit(visit({ enter_us: 4 }))).toThrow(RangeError);
  expect(() => scorer.tally(4, 'forward')).toThrow(RangeError);
});
