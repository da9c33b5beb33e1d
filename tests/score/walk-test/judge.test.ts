/** What walks say: agree, disagree, not yet. */
import { expect, test } from 'vitest';
import { judge } from '../../../src/score/walk-test/judge.js';
import { planOf } from '../../../src/score/walk-test/plan.js';

const kind = (value: number) => ({ prediction: { value, low: 0.9 * value, high: 1.1 * value } });
const plan = planOf([kind(0.1)], [150]);
const outcome = (walks: number, wrong: number) => {
  const { kinds } = judge(plan, [{ walks, wrong }]);
  const [{ outcome: said, side, more }] = kinds as [(typeof kinds)[number]];
  return [said, side, more];
};

test('as many wrong as predicted agree, once all is walked', () => {
  expect(outcome(150, 15)).toEqual(['agrees', null, 0]);
  expect(outcome(60, 6)).toEqual(['undecided', null, 90]);
  expect(outcome(0, 0)).toEqual(['undecided', null, 150]);
});

test('three times as many disagree, and far fewer do', () => {
  expect(outcome(150, 45)).toEqual(['disagrees', 'more', 0]);
  expect(outcome(150, 3)).toEqual(['disagrees', 'fewer', 0]);
});

test('half-way through, only what is far clearer disagrees', () => {
  // 2 · P(X ≥ 14 | 60, 0.11) = 0.0097 and 2 · P(X ≥ 30 | 60, 0.11) = 1.4e-13, computed with scipy 1.17.1.
  expect(outcome(60, 14)).toEqual(['undecided', null, 90]);
  expect(outcome(60, 30)).toEqual(['disagrees', 'more', 0]);
});

test('where nearly all are predicted wrong, right ones speak against it', () => {
  const sure = planOf([{ prediction: { value: 0.999, low: 0.995, high: 1 } }], [20]);
  const said = (wrong: number) => judge(sure, [{ walks: 20, wrong }]);
  expect(said(20).outcome).toBe('agrees');
  expect(said(10)).toMatchObject({ outcome: 'disagrees', kinds: [{ side: 'fewer' }] });
});

test('one kind that disagrees is enough, one that is open leaves all open', () => {
  const two = planOf([kind(0.1), kind(0.3)], [100, 40]);
  const all = (a: number, b: number, walked = 40) =>
    judge(two, [
      { walks: 100, wrong: a },
      { walks: walked, wrong: b },
    ]).outcome;
  expect([all(10, 12), all(40, 12), all(10, 3, 10), all(40, 3, 10)]).toEqual([
    'agrees',
    'disagrees',
    'undecided',
    'disagrees',
  ]);
});
