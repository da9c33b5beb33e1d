import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Person } from '../../src/agents/person.js';
import { drawPerson } from '../../src/agents/population.js';
import { BUILT_IN_WALKERS, walkerSchema } from '../../src/agents/schema.js';
import { Stream } from '../../src/engine/stream.js';

fc.configureGlobal({ seed: 20, numRuns: 300 });

const root = Stream.root('population test');
const adult = { kind: 'people', ages_y: [18, 80] as [number, number], women_share: 0.5, with_infant: false } as const;
const known = { kind: 'person', stature_m: 1.62, sex: 'woman', age_y: 34, with_infant: false } as const;

const sizes = (person: Person) => Object.entries(person).filter(([key]) => key.endsWith('_m')) as [string, number][];

describe('a drawn person', () => {
  test('is a function of the stream alone', () => {
    expect(drawPerson(adult, root.nth(5), 0.7)).toEqual(drawPerson(adult, Stream.root('population test').nth(5), 0.7));
    expect(drawPerson(adult, root.nth(5), 0.7)).not.toEqual(drawPerson(adult, root.nth(6), 0.7));
  });

  test('walks slower at a slower pace, and is the same person', () => {
    const street = drawPerson(adult, root.nth(1), 1);
    const home = drawPerson(adult, root.nth(1), 0.7);
    expect(home.speed_mps).toBeCloseTo(0.7 * street.speed_mps, 12);
    expect(home.step_m).toBeLessThan(street.step_m);
    expect({ ...home, speed_mps: 0, step_m: 0 }).toEqual({ ...street, speed_mps: 0, step_m: 0 });
  });

  test('with a known speed walks at it whatever the pace, and is the same person', () => {
    const fast = drawPerson({ ...known, speed_mps: 1.9 }, root.nth(2), 0.7);
    const drawn = drawPerson(known, root.nth(2), 0.7);
    expect(fast.speed_mps).toBe(1.9);
    expect({ ...fast, speed_mps: 0, step_m: 0 }).toEqual({ ...drawn, speed_mps: 0, step_m: 0 });
  });

  test('with a known stature has it, and the scatter of a stranger', () => {
    const people = [1, 2, 3].map((n) => drawPerson(known, root.nth(n), 0.7));
    for (const person of people) {
      expect(person).toMatchObject({ stature_m: 1.62, sex: 'woman', age_y: 34 });
    }
    expect(new Set(people.map((person) => person.bideltoid_m)).size).toBe(3);
  });

  test('is well formed at every age and stature that a scenario may state', () => {
    const person = fc.record({
      stature_m: fc.double({ min: 0.7, max: 2.3, noNaN: true }),
      age_y: fc.double({ min: 2, max: 100, noNaN: true }),
      sex: fc.constantFrom('woman' as const, 'man' as const),
      n: fc.nat(1_000_000),
    });
    fc.assert(
      fc.property(person, ({ n, ...who }) => {
        const drawn = drawPerson({ kind: 'person', ...who, with_infant: false }, root.nth(n), 0.7);
        for (const [key, size] of sizes(drawn)) {
          expect(size, key).toBeGreaterThan(0.005);
          expect(size, key).toBeLessThan(2.5);
        }
        expect(drawn.shoulder_height_m).toBeLessThan(drawn.chin_height_m);
        expect(drawn.chin_height_m).toBeLessThan(drawn.stature_m);
        expect(drawn.chest_depth_m).toBeLessThan(drawn.bideltoid_m);
        expect(drawn.speed_mps).toBeGreaterThan(0.1);
        expect(drawn.step_m).toBeGreaterThan(0.1 * drawn.stature_m);
        expect(drawn.step_m).toBeLessThan(0.6 * drawn.stature_m);
        expect(drawn.elbow_mean_deg).toBeGreaterThan(5);
        expect(drawn.elbow_mean_deg).toBeLessThan(40);
      }),
    );
  });
});

describe('a population', () => {
  const n = 10_000;
  const draw = (walker: Parameters<typeof drawPerson>[0]) =>
    Array.from({ length: n }, (_, i) => drawPerson(walker, root.nth(i), 0.7));
  /** 99.9 % of a binomial share. */
  const bound = (p: number) => 3.29 * Math.sqrt((p * (1 - p)) / n);

  test('has the stated share of women, evenly spread over its ages', () => {
    const people = draw({ ...adult, women_share: 0.3 });
    expect(Math.abs(people.filter((person) => person.sex === 'woman').length / n - 0.3)).toBeLessThan(bound(0.3));
    expect(Math.abs(people.filter((person) => person.age_y < 49).length / n - 0.5)).toBeLessThan(bound(0.5));
    expect(people.every((person) => person.age_y >= 18 && person.age_y <= 80)).toBe(true);
  });

  test('given as a table, has its rows by their shares', () => {
    const rows = [
      { stature_m: 1.1, share: 3 },
      { stature_m: 1.8, sex: 'man' as const, age_y: 50, share: 1 },
      { stature_m: 1.5, share: 0 },
    ];
    const people = draw({ kind: 'table', rows, with_infant: false });
    const small = people.filter((person) => person.stature_m === 1.1);
    expect(Math.abs(small.length / n - 0.75)).toBeLessThan(bound(0.75));
    expect(people.filter((person) => person.stature_m === 1.8 && person.age_y === 50).length).toBe(n - small.length);
    // 1.10 m and no age: between the medians of five and six years (109.2 and 115.7, 108.0 and 115.0 cm; CDC 2000).
    expect(small.every((person) => person.age_y > 5 && person.age_y < 6)).toBe(true);
    expect(Math.abs(small.filter((person) => person.sex === 'woman').length / small.length - 0.5)).toBeLessThan(0.03);
  });

  test('of 1.60 m and no age is grown up', () => {
    const walker = { kind: 'table' as const, rows: [{ stature_m: 1.6, share: 1 }], with_infant: false };
    expect(drawPerson(walker, root, 1).age_y).toBe(40);
  });

  test('carries infants where it is said to', () => {
    const walker = walkerSchema.parse(BUILT_IN_WALKERS['adult-with-infant']);
    if (walker.kind !== 'people') throw new Error('not people');
    expect(draw(walker).every((person) => person.infant && person.age_y >= 20)).toBe(true);
  });

  test('grows up without a jump: no size changes by a tenth from one month to the next', () => {
    for (const sex of ['woman', 'man'] as const) {
      const at = (months: number) => {
        const age_y = months / 12;
        const walker = {
          kind: 'people',
          ages_y: [age_y, age_y] as [number, number],
          women_share: sex === 'woman' ? 1 : 0,
          with_infant: false,
        } as const;
        return drawPerson(walker, root.nth(11), 1);
      };
      for (let months = 25; months <= 12 * 25; months++) {
        const [before, after] = [at(months - 1), at(months)];
        for (const [key, size] of sizes(after)) {
          const was = before[key as keyof Person] as number;
          expect(Math.abs(size / was - 1), `${sex} at ${months} months: ${key}`).toBeLessThan(0.1);
        }
      }
    }
  });
});
