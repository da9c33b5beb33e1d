/** Who comes first where the number itself doesn't say. */
import { expect, test } from 'vitest';
import { type Ranked, rank } from '../../../src/study/judge/ranking.js';
import { sampleOf } from '../../../src/study/judge/samples.js';

const measure = { options: { scale: 100, nothing: 'no crossings' } };
const UNKNOWN: Ranked['effort'] = { holes: 4, cable_m: null, hours: 2, cost: null };

/** Designs that counted as many of a hundred wrong in each of two replicates, and what they take. */
const ranked = (all: readonly (readonly [wrong: number, effort: Partial<Ranked['effort']>])[]): number[] =>
  rank(
    all.map(([wrong, effort], i) => ({
      number: i + 1,
      crowd: 1,
      sample: sampleOf(
        [
          { events: wrong, exposure: 100 },
          { events: wrong, exposure: 100 },
        ],
        measure,
      )!,
      effort: { ...UNKNOWN, ...effort },
    })),
    'least',
  ).map(({ design }) => design);

test('the better number, whatever it costs', () => {
  expect(
    ranked([
      [3, { cost: 1 }],
      [2, { cost: 9 }],
    ]),
  ).toEqual([2, 1]);
});

test('of equals the cheaper, then the one with fewer holes, then with less cable, then the first', () => {
  expect(
    ranked([
      [2, { cost: 9 }],
      [2, { cost: 5, holes: 6 }],
      [2, { cost: 5, holes: 4, cable_m: 12 }],
      [2, { cost: 5, holes: 4, cable_m: 8 }],
      [2, { cost: 5, holes: 4, cable_m: 8 }],
    ]),
  ).toEqual([4, 5, 3, 2, 1]);
});

test('what isn’t known comes after what is', () => {
  expect(
    ranked([
      [2, { holes: 1 }],
      [2, { cost: 900 }],
    ]),
  ).toEqual([2, 1]);
});
