/** From a design to a plan, from walks through a built door to a verdict: does it keep its word? */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import type { Design } from '../../src/scenario/schema.js';
import { judge } from '../../src/score/walk-test/judge.js';
import { atLeast } from '../../src/score/walk-test/exact.js';
import { planWalks } from '../../src/score/walk-test/plan.js';
import { isWrong, predictWalk, walksAlone } from '../../src/simulate/walk-prediction.js';
import { ROD, doorDesign } from './designs.js';
import { LONG } from '../how-many.js';

const DOCS = readFileSync('docs/walktest.md', 'utf8').replace(/\s+/g, ' ');
const KINDS = [
  { who: 'adult', kind: 'through' },
  { who: 'child', kind: 'through' },
  { who: 'adult', kind: 'turn-back' },
  { who: 'adult', kind: 'abreast' },
] as const;
// At the height of thighs children and legs make errors enough to be told.
const design = doorDesign({ height_m: 0.45 });
const root = Stream.root('walk test');

function predicted(of: Design) {
  const door = of.doors[0]!;
  return KINDS.map((choice) => ({
    ...choice,
    prediction: predictWalk(of, door, of.logics[0]!, choice, root.child('prediction', choice.who, choice.kind)),
  }));
}
const kinds = predicted(design);
const plan = planWalks(kinds, 300);

/** The whole evening at a built door, `n` telling one from another. */
function evening(built: Design, n: number): boolean[][] {
  const door = built.doors[0]!;
  return plan.kinds.map(({ kind: { who, kind }, walks }) =>
    walksAlone(built, door, built.logics[0]!, { who, kind }, walks, root.child('built', who, kind, String(n))).map(
      isWrong,
    ),
  );
}
const verdictOf = (walks: readonly (readonly boolean[])[]) =>
  judge(
    plan,
    walks.map((wrong) => ({ walks: wrong.length, wrong: wrong.filter(Boolean).length })),
  ).outcome;

test('rods through a door without noise are never wrong, and the prediction says how sure that is', () => {
  const rods = doorDesign({ walkers: ROD, mix: '[{ who: rod, kind: through, share: 1 }]' });
  const walk = predictWalk(rods, rods.doors[0]!, rods.logics[0]!, { who: 'rod', kind: 'through' }, root);
  expect(walk).toMatchObject({
    value: 0,
    low: 0,
    crosses: { forward: { forward: 1, backward: 0 }, backward: { forward: 0, backward: 1 } },
  });
  // None of 2500: the high end is 1 − 0.025^(1/2500) = 0.0014744637 (Clopper and Pearson in closed form).
  expect(walk.high).toBeCloseTo(0.0014744637, 10);
});

test('who turns back goes through nowhere, who goes abreast goes twice', () => {
  const crosses = (kind: string) => kinds.find((one) => one.kind === kind)!.prediction.crosses;
  expect(crosses('turn-back').forward).toEqual({ forward: 0, backward: 0 });
  expect(crosses('abreast').backward).toEqual({ forward: 0, backward: 2 });
});

describe('an evening of walks', () => {
  const evenings = LONG ? 400 : 40;

  test(`at a house as predicted: agrees in 95 of 100 (${evenings} evenings)`, () => {
    let others = 0;
    for (let n = 0; n < evenings; n++) if (verdictOf(evening(design, n)) !== 'agrees') others++;
    // As many others as that come less than once in ten thousand if one in twenty is the rule.
    expect(atLeast(others, evenings, 0.05)).toBeGreaterThan(1e-4);
    if (LONG)
      expect(DOCS).toContain(`In ${evenings} simulated evenings at a door as predicted, ${others} did not agree`);
  });

  test('where every error comes three times as often: mostly found out', () => {
    let found = 0;
    for (let n = 0; n < evenings; n++) {
      const walks = plan.kinds.map(({ prediction, walks: count }, k) => {
        const chance = root.child('tripled', String(k)).nth(n);
        return Array.from({ length: count }, (_, i) => chance.at(i) < Math.min(1, 3 * prediction.value));
      });
      if (verdictOf(walks) === 'disagrees') found++;
    }
    expect(found / evenings).toBeGreaterThan(0.9);
    if (LONG) expect(DOCS).toContain(`three times as often, ${found} were found out`);
  });

  test.each([
    ['with its beams at the height of the shins', doorDesign({ height_m: 0.2 })],
    ['with its beams too far apart and high', doorDesign({ height_m: 1.2, spacing_m: 0.3 })],
    ['with another logic', doorDesign({ height_m: 0.45, logics: '[hold-off]' })],
  ])('at a door built %s: found out', (_, built) => {
    const found = Array.from({ length: 5 }, (__, n) => verdictOf(evening(built, n)));
    expect(found.filter((one) => one === 'disagrees').length).toBeGreaterThanOrEqual(4);
  });
});
