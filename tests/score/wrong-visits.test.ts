/** What is kept of the visits that went wrong. */
import { expect, test } from 'vitest';
import type { Visit } from '../../src/agents/visit.js';
import { MOST_KEPT, WrongVisits } from '../../src/score/wrong-visits.js';

const visit = (more: Partial<Visit>): Visit =>
  ({
    number: 7,
    door: 0,
    body: 3,
    entry: 0,
    who: 'adult',
    stature_m: 1.7,
    persons: 1,
    kind: 'through',
    direction: 'forward',
    enter_us: 1000,
    cross_us: 2000,
    leave_us: 3000,
    ...more,
  }) as Visit;
const none = { forward: 0, backward: 0, nothing: 0, extra: 0, net: 0 };

test('right visits are let go, wrong ones are kept with what was wrong', () => {
  const wrong = new WrongVisits(2, 2);
  wrong.judged(0, 0, visit({}), { ...none, forward: 1, net: 1 });
  wrong.judged(0, 0, visit({ number: 8 }), { ...none, nothing: 1 });
  wrong.judged(0, 1, visit({ number: 9 }), { ...none, backward: 1, net: -1 });
  wrong.judged(1, 0, visit({ number: 10, kind: 'turn-back', cross_us: null }), { ...none, forward: 1, net: 1 });
  wrong.nobody(1, 0, 5000, -1);
  expect(
    wrong.visits.map(({ number, missed, reversed, extra, invented }) => [number, missed, reversed, extra, invented]),
  ).toEqual([
    [8, 1, 0, 0, 0],
    [9, 0, 1, 0, 0],
    [10, 0, 0, 0, 1],
  ]);
  expect(wrong.strays).toEqual([{ door: 1, logic: 0, time_us: 5000, direction: 'backward', opened_us: -1 }]);
});

test('each knows when somebody last entered the empty doorway', () => {
  const wrong = new WrongVisits(2, 2);
  for (const time of [100, 900, 1500]) wrong.opens(0, time);
  wrong.judged(0, 0, visit({}), { ...none, nothing: 1 });
  expect(wrong.visits[0]?.opened_us).toBe(900);
});

test('a door that gets everything wrong fills no memory', () => {
  const wrong = new WrongVisits(2, 2);
  for (let n = 0; n < MOST_KEPT * 2; n++) wrong.judged(0, 0, visit({ number: n }), { ...none, nothing: 1 });
  wrong.judged(0, 1, visit({ number: 1 }), { ...none, nothing: 1 });
  expect(wrong.visits).toHaveLength(MOST_KEPT + 1);
  expect(wrong.kept().all).toEqual([
    [MOST_KEPT * 2, 1],
    [0, 0],
  ]);
});
