/** Causes put together: a worked example by hand, two replicates of a house with two doors. */
import { describe, expect, test } from 'vitest';
import type { Why } from '../../src/score/why-classes.js';
import { type Explained, type WhyRecord, whyMetrics } from '../../src/score/why.js';

const NONE = { missed: 0, reversed: 0, extra: 0, invented: 0 };
const ARMS: Why = { how: 'only', things: ['arms'] };
const NOISE: Why = { how: 'only', things: ['noise'] };
const RULE: Why = { how: 'structure', things: ['rule'] };

let number = 0;
const explained = (door: number, why: Why, errors: Partial<Explained['errors']>, logic = 0): Explained => ({
  door,
  logic,
  number: ++number,
  time_us: number,
  errors: { ...NONE, ...errors },
  why,
});

/** `all[door][logic]`, one logic: of four wrong at the front door two were explained, so that each stands for two. */
const RECORDS: readonly WhyRecord[] = [
  {
    explained: [
      explained(0, ARMS, { missed: 1 }),
      explained(0, NOISE, { extra: 2 }),
      explained(1, ARMS, { reversed: 1 }),
    ],
    all: [[4], [1]],
  },
  { explained: [explained(0, ARMS, { missed: 1 }), explained(1, RULE, { invented: 1 })], all: [[1], [4]] },
];
const all = RECORDS.map((record) => record.all);
/** A week and three fourths each: 1.75 weeks of 168 hours. */
const HOURS = 294;
const rows = whyMetrics(['only one'], ['front', 'back'], RECORDS, all, HOURS);

describe('causes', () => {
  test('come for the house first, then for each door', () => {
    expect(rows.map(({ door, logic }) => [door, logic])).toEqual([
      [null, 'only one'],
      ['front', 'only one'],
      ['back', 'only one'],
    ]);
    expect(
      whyMetrics(['only one'], ['front'], [{ explained: [], all: [[0]] }], [[[0]]], 1).map((row) => row.door),
    ).toEqual([null]);
    expect(whyMetrics(['only one'], ['front'], [], [], 1)).toEqual([]);
  });

  test('say how many were wrong and how many of them were looked at', () => {
    expect(rows.map(({ wrong, explained: n }) => [wrong, n])).toEqual([
      [10, 5],
      [5, 3],
      [5, 2],
    ]);
  });

  test('are counted with what each explained one stands for, most frequent first', () => {
    const [house, front, back] = rows as [(typeof rows)[0], (typeof rows)[0], (typeof rows)[0]];
    const shares = (row: (typeof rows)[0]) => row.causes.map(({ things, share }) => [things[0], share.value]);
    // House: arms 2 + 1 and 1 of 5 + 5, rule 4, noise 2; arms and rule are equal, and arms are tried first.
    expect(shares(house)).toEqual([
      ['arms', 0.4],
      ['rule', 0.4],
      ['noise', 0.2],
    ]);
    // Front: arms 2 and 1 of 4 + 1; back: arms 1, rule 4 of 1 + 4.
    expect(shares(front)).toEqual([
      ['arms', 0.6],
      ['noise', 0.4],
    ]);
    expect(shares(back)).toEqual([
      ['rule', 0.8],
      ['arms', 0.2],
    ]);
    expect(house.causes.map((cause) => cause.explained)).toEqual([3, 1, 1]);
    // 4 in 2 · 294 h = 3.5 weeks.
    expect(house.causes[0]!.per_week.value).toBeCloseTo(4 / 3.5, 12);
    expect(house.causes[2]!.per_week.value).toBeCloseTo(2 / 3.5, 12);
  });

  test('tell which errors they made', () => {
    expect(rows[0]!.causes.map(({ errors }) => errors)).toEqual([
      { ...NONE, missed: 2, reversed: 1 },
      { ...NONE, invented: 1 },
      { ...NONE, extra: 2 },
    ]);
  });

  test('that are equally frequent come in the order they are tried: removals before what the record says', () => {
    const [row] = whyMetrics(
      ['only one'],
      ['front'],
      [{ explained: [explained(0, RULE, {}), explained(0, NOISE, {}), explained(0, ARMS, {})], all: [[3]] }],
      [[[3]]],
      1,
    );
    expect(row!.causes.map(({ things }) => things[0])).toEqual(['noise', 'arms', 'rule']);
  });

  test('are kept apart by logic', () => {
    const [first, second] = whyMetrics(
      ['first', 'second'],
      ['front'],
      [{ explained: [explained(0, ARMS, {}), explained(0, NOISE, {}, 1)], all: [[1, 3]] }],
      [[[1, 3]]],
      1,
    );
    expect([first!.wrong, second!.wrong]).toEqual([1, 3]);
    expect([first!.causes[0]!.things, second!.causes[0]!.things]).toEqual([['arms'], ['noise']]);
  });
});
