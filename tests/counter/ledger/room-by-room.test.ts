import { describe, expect, test } from 'vitest';
import { makeLedger } from '../../../src/counter/ledger/make-ledger.js';
import { BARE_LEDGERS, LEDGERS, ledgerSchema } from '../../../src/counter/ledger/schema.js';
import { HOUR_US } from '../../../src/engine/time.js';
import { OUT, houseOf, play } from './helpers.js';

const front = houseOf([0], [[OUT, 0]]);
const made = (choice: object, house = front) => makeLedger(ledgerSchema.parse(choice), house);
const flat = (steps: number[][]) => steps.map(([count]) => count);

describe('ledgers that keep each room by itself', () => {
  test('raw goes below zero, floor forgets what is taken from an empty room, cap what is brought into a full one', () => {
    const story = '+0 -0 -0 -0 +0 +0 +0 +0';
    expect(flat(play(made({ use: 'raw' }), story))).toEqual([1, 0, -1, -2, -1, 0, 1, 2]);
    expect(flat(play(made({ use: 'floor' }), story))).toEqual([1, 0, 0, 0, 1, 2, 3, 4]);
    expect(flat(play(made({ use: 'cap', at_most: 2 }), story))).toEqual([1, 0, 0, 0, 1, 2, 2, 2]);
  });

  test('a forward tally moves one from the room named `from` to the one named `to`; each room forgets for itself', () => {
    const house = houseOf([1, 0], [[0, 1]]);
    expect(play(made({ use: 'raw' }, house), '+0 +0 -0')).toEqual([
      [0, 1],
      [-1, 2],
      [0, 1],
    ]);
    expect(play(made({ use: 'floor' }, house), '+0 +0 -0')).toEqual([
      [0, 1],
      [0, 2],
      [1, 1],
    ]);
  });

  test('a room that begins above the cap begins at it', () => {
    expect(made({ use: 'cap', at_most: 3 }, houseOf([5], [[OUT, 0]])).counts).toEqual([3]);
  });
});

describe('the daily reset', () => {
  test('comes at its clock time, the first one after the start, and then every day', () => {
    const ledger = made({ use: 'reset', at: '04:00' }, houseOf([5], [[OUT, 0]], [], 22.5));
    expect(ledger.wake_us).toBe(5.5 * HOUR_US);
    play(ledger, '+0');
    expect(ledger.counts).toEqual([6]);
    ledger.wake();
    expect(ledger.counts).toEqual([0]);
    expect(ledger.wake_us).toBe(29.5 * HOUR_US);
  });

  test('at the very start nothing is forgotten', () => {
    expect(made({ use: 'reset', at: '08:00' }).wake_us).toBe(24 * HOUR_US);
  });

  test('may go back to the counts of the start', () => {
    const ledger = made({ use: 'reset', to: 'start' }, houseOf([5, 1], [[0, 1]]));
    play(ledger, '+0 +0');
    ledger.wake();
    expect(ledger.counts).toEqual([5, 1]);
  });
});

describe('the presence ledger', () => {
  test('holds at least one while the sensor says occupied, and nobody when it falls to empty', () => {
    const ledger = made(
      { use: 'presence' },
      houseOf(
        [0, 0],
        [
          [OUT, 0],
          [0, 1],
        ],
      ),
    );
    ledger.presence(0, 0, true);
    expect(ledger.counts).toEqual([1, 0]);
    expect(play(ledger, '+0 -0 -0')).toEqual([
      [2, 0],
      [1, 0],
      [1, 0],
    ]);
    play(ledger, '+0 +0');
    ledger.presence(9, 0, false);
    expect(ledger.counts).toEqual([0, 0]);
  });

  test('believes tallies after the fall to empty, and of rooms without a sensor: as floor does', () => {
    const [presence, floor] = [made({ use: 'presence' }), made({ use: 'floor' })];
    presence.presence(0, 0, true);
    presence.presence(1, 0, false);
    const story = '+0 +0 -0 -0 -0 +0';
    expect(play(presence, story)).toEqual(play(floor, story));
  });
});

test('all but the cap may be written as a bare name', () => {
  const bare = LEDGERS.filter((use) => ledgerSchema.safeParse({ use }).success);
  expect(bare).toEqual([...BARE_LEDGERS]);
});
