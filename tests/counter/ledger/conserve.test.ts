import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ConserveLedger } from '../../../src/counter/ledger/conserve.js';
import { OUT, houseOf, play } from './helpers.js';

/** 0 hall, 1 kitchen, 2 parlour, 3 larder behind the kitchen. Doors: 0 front, 1 kitchen, 2 parlour, 3 larder. */
const HALL: [number, number][] = [
  [OUT, 0],
  [0, 1],
  [0, 2],
  [1, 3],
];
const home = (starts: number[], household: number | null = null) =>
  new ConserveLedger(houseOf(starts, HALL), household);

describe('a tally out of an empty room', () => {
  test('that needs no repair is a plain move', () => {
    const ledger = home([1, 0, 0, 0]);
    expect(play(ledger, '+1 +3 -3')).toEqual([
      [0, 1, 0, 0],
      [0, 0, 0, 1],
      [0, 1, 0, 0],
    ]);
    expect(ledger.repairs).toEqual([0, 0, 0, 0]);
  });

  test('fetches from the room next door rather than from outside, and charges the door between', () => {
    const ledger = home([0, 0, 2, 0]);
    expect(play(ledger, '+1')).toEqual([[0, 1, 1, 0]]);
    expect(ledger.repairs).toEqual([0, 0, 1, 0]);
  });

  test('fetches from outside rather than from two doors away', () => {
    const ledger = home([0, 0, 0, 2]);
    expect(play(ledger, '+2')).toEqual([[0, 0, 1, 2]]);
    expect(ledger.repairs).toEqual([1, 0, 0, 0]);
  });

  test('goes two doors where nobody is out, and charges both', () => {
    const ledger = home([0, 0, 0, 2], 2);
    expect(play(ledger, '+2')).toEqual([[0, 0, 1, 1]]);
    expect(ledger.repairs).toEqual([0, 1, 0, 1]);
  });

  test('takes from the room that holds most, whom one fewer changes least; else from the first', () => {
    expect(play(home([0, 1, 2, 0], 3), '-0')).toEqual([[0, 1, 1, 0]]);
    expect(play(home([0, 2, 2, 0], 4), '-0')).toEqual([[0, 1, 2, 0]]);
  });

  test('from the place it goes to changes nothing but the charge: in and out again, or never', () => {
    const ledger = home([0, 3, 0, 0], 3);
    expect(play(ledger, '+1')).toEqual([[0, 3, 0, 0]]);
    expect(ledger.repairs).toEqual([0, 1, 0, 0]);
  });

  test('into a house whose household is all in: one of them must have gone out unseen', () => {
    const ledger = home([0, 1, 1, 0], 2);
    // Outside is empty; the hall, next to it, too; kitchen and parlour are two doors away.
    expect(play(ledger, '+0')).toEqual([[1, 0, 1, 0]]);
    expect(ledger.repairs).toEqual([1, 1, 0, 0]);
  });

  test('where nobody is anywhere is void, and its own door charged', () => {
    const ledger = new ConserveLedger(houseOf([0, 0], [[0, 1]]), 0);
    expect(play(ledger, '+0')).toEqual([[0, 0]]);
    expect(ledger.repairs).toEqual([1]);
  });
});

const plans = fc
  .record({
    starts: fc.array(fc.nat(3), { minLength: 1, maxLength: 6 }),
    sides: fc.array(fc.tuple(fc.integer({ min: -1, max: 5 }), fc.integer({ min: -1, max: 5 })), {
      minLength: 1,
      maxLength: 8,
    }),
    more: fc.option(fc.nat(3)),
    tallies: fc.array(fc.tuple(fc.nat(7), fc.boolean()), { maxLength: 60 }),
  })
  .map(({ starts, sides, more, tallies }) => {
    const inRange = (room: number) => Math.min(room, starts.length - 1);
    const doors = sides.map(([a, b]): [number, number] => {
      const [from, to] = [inRange(a), inRange(b)];
      return from === to ? [OUT, Math.max(0, to)] : [from, to];
    });
    const household = more === null ? null : starts.reduce((sum, n) => sum + n, more);
    return { starts, doors, household, tallies };
  });

test('over any plan no room is below nobody, the household never grows, and only what must be is put right', () => {
  fc.assert(
    fc.property(plans, ({ starts, doors, household, tallies }) => {
      const ledger = new ConserveLedger(houseOf(starts, doors), household);
      const most = household ?? Infinity;
      for (const [d, forward] of tallies) {
        const door = d % doors.length;
        const [from, to] = forward ? doors[door]! : [doors[door]![1], doors[door]![0]];
        const before = [...ledger.counts];
        const charged = ledger.repairs.reduce((sum, n) => sum + n, 0);
        const inside = before.reduce((sum, n) => sum + n, 0);
        ledger.tally(0, door, forward ? 'forward' : 'backward');
        const after = ledger.counts;
        for (const count of after) expect(count).toBeGreaterThanOrEqual(0);
        const now = after.reduce((sum, n) => sum + n, 0);
        expect(now).toBeLessThanOrEqual(most);
        const possible = from === OUT ? inside < most : before[from]! > 0;
        const repaired = ledger.repairs.reduce((sum, n) => sum + n, 0) - charged;
        expect(repaired > 0).toBe(!possible);
        if (possible) {
          const moved = before.map((n, room) => n - (room === from ? 1 : 0) + (room === to ? 1 : 0));
          expect(after).toEqual(moved);
        } else {
          // One person at most changes place: one room loses one at most, one gains one at most.
          const changes = after.map((n, room) => n - before[room]!).filter((by) => by !== 0);
          expect([...changes].sort((a, b) => a - b)).toSatisfy(
            (by: number[]) =>
              by.length <= 2 && by.filter((x) => x === 1).length <= 1 && by.filter((x) => x === -1).length <= 1,
          );
        }
      }
    }),
    { seed: 11, numRuns: 300 },
  );
});
