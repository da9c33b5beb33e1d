/** From what a study says to its designs. */
import { describe, expect, test } from 'vitest';
import { planStudy } from '../../../src/study/plan/plan.js';
import { designOf, planned, studyOf } from '../studies.js';

const HOUSE = designOf(`format: 1
name: two doors
rooms: [{ name: hall, people_at_start: 3 }, { name: kitchen }]
sensors: { slow: { kind: light-barrier, response_ms: 20 } }
doors:
  - { name: front, from: outside, to: hall, width_m: 0.9, jamb_depth_m: 0.2, pair: { height_m: 0.9, spacing_m: 0.1 }, traffic: { arrivals_per_hour: 30 } }
  - { name: inner, from: hall, to: kitchen, width_m: 0.8, jamb_depth_m: 0.1, pair: { height_m: 0.9, spacing_m: 0.1 }, traffic: { arrivals_per_hour: 20 } }
`);
const HEIGHT = { key: 'doors.*.pair.height_m', from: 0.8, to: 1, step: 0.1 };
const SPACING = { key: 'doors.*.pair.spacing_m', values: [0.05, 0.15] };

const refused = (rest: object): string[] => {
  const { plan, issues } = planStudy(studyOf(rest), HOUSE, undefined);
  expect(plan).toBe(null);
  return issues.map(({ path, problem }) => `${[path].flat().join('.')}: ${problem.code}`);
};

describe('designs are all combinations, the last factor varying fastest', () => {
  test('a range and a list', () => {
    const { designs, factors } = planned(HOUSE, { factors: [HEIGHT, SPACING] });
    expect(factors.map(({ name, levels }) => [name, levels.map(({ label }) => label)])).toEqual([
      ['height_m', ['0.8', '0.9', '1']],
      ['spacing_m', ['0.05', '0.15']],
    ]);
    expect(designs.map(({ number, levels }) => [number, ...levels])).toEqual([
      [1, 0, 0],
      [2, 0, 1],
      [3, 1, 0],
      [4, 1, 1],
      [5, 2, 0],
      [6, 2, 1],
    ]);
  });

  test('every design has its keys set, at every door', () => {
    const plan = planned(HOUSE, { factors: [HEIGHT, SPACING] });
    const design = plan.design(plan.designs[5]!);
    expect(design.doors.map(({ beams }) => beams.map(({ height_m, at_m }) => [height_m, at_m]))).toEqual([
      [
        [1, -0.075],
        [1, 0.075],
      ],
      [
        [1, -0.075],
        [1, 0.075],
      ],
    ]);
  });

  test('a range reaches its end without the dust of adding', () => {
    const { factors } = planned(HOUSE, { factors: [{ key: 'doors.*.pair.height_m', from: 0.1, to: 0.7, step: 0.1 }] });
    expect(factors[0]!.levels.map(({ value }) => value)).toEqual([0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7]);
  });

  test('keys that go together', () => {
    const plan = planned(HOUSE, {
      factors: [
        {
          name: 'at',
          keys: ['doors.front.pair.height_m', 'doors.inner.pair.height_m'],
          values: [
            [0.8, 0.9],
            [1, 1],
          ],
        },
      ],
    });
    expect(plan.factors[0]!.levels.map(({ label }) => label)).toEqual(['0.8 / 0.9', '1']);
    expect(plan.design(plan.designs[0]!).doors.map(({ beams }) => beams[0]!.height_m)).toEqual([0.8, 0.9]);
  });

  test('named variants: a whole pair, a sensor, a logic', () => {
    const plan = planned(HOUSE, {
      factors: [
        {
          variants: [
            { name: 'as it is', set: {} },
            { name: 'slow', set: { 'doors.*.pair.sensor': 'slow' } },
            { name: 'pair', set: { 'doors.*.pair': { height_m: 1.1, spacing_m: 0.06 } } },
            { name: 'logic', set: { logics: ['first-broken'] } },
          ],
        },
      ],
    });
    const [as, slow, pair, logic] = plan.designs.map((one) => plan.design(one));
    expect(as!.doors).toEqual(HOUSE.doors);
    expect(slow!.doors[1]!.beams.map(({ sensor }) => sensor)).toEqual(['slow', 'slow']);
    expect(pair!.doors[0]!.beams.map(({ height_m, at_m }) => [height_m, at_m])).toEqual([
      [1.1, -0.03],
      [1.1, 0.03],
    ]);
    expect(logic!.logics.map(({ name }) => name)).toEqual(['first-broken']);
  });
});

describe('conditions leave combinations out', () => {
  test('a factor against a key of every door', () => {
    const { designs, left_out, factors } = planned(HOUSE, { factors: [SPACING], where: ['spacing_m < jamb_depth_m'] });
    // The inner door's frame is 0.1 m deep: 0.15 m does not fit into it.
    expect(designs.map(({ levels }) => factors[0]!.levels[levels[0]!]!.label)).toEqual(['0.05']);
    expect(left_out).toBe(1);
  });

  test('arithmetic, other keys, and both of two conditions', () => {
    const kept = (where: string): number =>
      planned(HOUSE, { factors: [HEIGHT, SPACING], where: [where] }).designs.length;
    expect(kept('spacing_m * 2 + 0.01 < doors.front.width_m / 8')).toBe(3);
    expect(kept('height_m > 0.85 && spacing_m == 0.05')).toBe(2);
    expect(kept('height_m < 0.85 || spacing_m != 0.05')).toBe(4);
  });

  test('combinations that can not be built may be left out by them', () => {
    const tall = { key: 'doors.*.pair.height_m', values: [1, 2.5] };
    expect(refused({ factors: [tall] })).toEqual(['factors.0: above_lintel']);
    expect(planned(HOUSE, { factors: [tall], where: ['height_m < 2'] }).designs).toHaveLength(1);
  });

  test.each([
    'spacing_m',
    'spacing_m <',
    'spacin_m < 1',
    'process.exit(1) < 2',
    'constructor.name == 3',
    '"a" < spacing_m.x',
  ])('%s is refused in words', (where) => {
    expect(refused({ factors: [SPACING], where: [where] }).join()).toMatch(/^where/);
  });

  test('conditions that nothing meets', () => {
    expect(refused({ factors: [SPACING], where: ['spacing_m > 1'] })).toEqual(['where: other']);
  });
});

describe('who meets the same crowds', () => {
  test('beams and logics do not change the crowd', () => {
    const { designs, unpaired } = planned(HOUSE, {
      factors: [HEIGHT, { key: 'logics', name: 'counting', values: [['four-level'], ['first-broken']] }],
    });
    expect(new Set(designs.map(({ crowd }) => crowd)).size).toBe(1);
    expect(unpaired).toEqual([false, false]);
  });

  test('the width of an opening does, and is marked', () => {
    const { designs, unpaired } = planned(HOUSE, { factors: [HEIGHT, { key: 'doors.*.width_m', values: [0.8, 1] }] });
    expect(designs.map(({ crowd }) => crowd)).toEqual([1, 2, 1, 2, 1, 2]);
    expect(unpaired).toEqual([false, true]);
  });
});

test('the key of a design follows from what its cells follow from, and from nothing else', () => {
  const keys = (rest: object): string[] => planned(HOUSE, rest).designs.map(({ key }) => key);
  const some = keys({ factors: [HEIGHT] });
  expect(new Set(some).size).toBe(3);
  // More values, another name of the factor, other replicates: the same designs.
  expect(keys({ factors: [{ ...HEIGHT, from: 0.7, name: 'h' }], replicates: 3 }).slice(1)).toEqual(some);
  expect(keys({ factors: [HEIGHT, { key: 'seed', values: [5] }] })).not.toContain(some[0]);
});

describe('what is wrong is said at its place', () => {
  test.each([
    [{ factors: [{ key: 'a' }] }, 'factors.0: other'],
    [{ factors: [{ key: 'a', values: [1], from: 1 }] }, 'factors.0: other'],
    [{ factors: [{ keys: ['a', 'b'], values: [[1]] }] }, 'factors.0.values.0: other'],
    [{ factors: [{ key: 'doors.*.pair.height_m', from: 1, to: 0.5, step: 0.1 }] }, 'factors.0: other'],
    [{ factors: [{ ...HEIGHT, name: 'replicate' }] }, 'factors.0: reserved_name'],
    [{ factors: [HEIGHT, { ...SPACING, name: 'height_m' }] }, 'factors.1: duplicate_name'],
    [{ factors: [{ key: 'doors.*.pair.hight_m', values: [1] }] }, 'factors.0: unknown_path'],
    [
      {
        factors: [
          {
            variants: [
              { name: 'a', set: {} },
              { name: 'a', set: {} },
            ],
          },
        ],
      },
      'factors.0.variants: duplicate_name',
    ],
    [{ factors: [HEIGHT], rank_by: 'house.right_per_100' }, 'rank_by: other'],
    [{ factors: [HEIGHT], rank_by: 'rooms.hall.first_wrong_h' }, 'rank_by: other'],
    [
      { factors: [HEIGHT], replicates: { until: 'doors.side.wrong_per_100', half_width: 1 } },
      'replicates.until: other',
    ],
  ])('%j', (rest, problem) => {
    expect(refused(rest)).toContain(problem);
  });

  test('too many combinations', () => {
    const many = Array.from({ length: 400 }, (_, i) => 0.3 + i / 1000);
    expect(
      refused({
        factors: [
          { key: 'doors.front.pair.height_m', values: many },
          { key: 'doors.inner.pair.height_m', name: 'h2', values: many },
        ],
      }),
    ).toEqual(['factors: other']);
  });
});
