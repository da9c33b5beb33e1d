/** The front: whoever is on it is beaten by nobody, whoever isn't, by somebody. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { front } from '../../../src/study/judge/front.js';

const small = fc.integer({ min: 0, max: 4 });
const design = fc.record({ value: small, holes: small, cable_m: small, cost: small });

test('against all pairs', () => {
  fc.assert(
    fc.property(fc.array(design, { minLength: 1, maxLength: 30 }), (all) => {
      const designs = all.map(({ value, ...effort }, i) => ({ number: i + 1, value, effort: { ...effort, hours: 1 } }));
      const found = front(designs);
      const at = (i: number): number[] => [all[i]!.value, ...found.by.map((cost) => all[i]![cost])];
      const beaten = (i: number): boolean =>
        all.some((_, j) => at(j).every((one, k) => one <= at(i)[k]!) && at(j).some((one, k) => one < at(i)[k]!));
      expect(found.designs).toEqual(designs.filter((_, i) => !beaten(i)).map(({ number }) => number));
    }),
    { seed: 8 },
  );
});

test('what is the same for all, or unknown, weighs nothing', () => {
  const effort = (holes: number, cost: number | null) => ({ holes, cable_m: null, cost, hours: 1 });
  const found = front([
    { number: 1, value: 2, effort: effort(4, 10) },
    { number: 2, value: 1, effort: effort(4, 20) },
    { number: 3, value: 3, effort: effort(4, 20) },
  ]);
  expect(found).toEqual({ by: ['cost'], designs: [1, 2] });
});
