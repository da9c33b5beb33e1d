import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { DoorRates } from '../../../src/counter/ledger/house-ledger.js';
import { LikelihoodLedger } from '../../../src/counter/ledger/likelihood.js';
import { makeLedger } from '../../../src/counter/ledger/make-ledger.js';
import { kthLargest } from '../../../src/counter/ledger/vectors.js';
import { Stream } from '../../../src/engine/stream.js';
import { OUT, houseOf, play } from './helpers.js';

const rates = (missed: number, reversed: number, invented: number, crossings_per_tally = 0.5): DoorRates => ({
  missed,
  reversed,
  invented,
  crossings_per_tally,
});
const DOORS: [number, number][] = [
  [OUT, 0],
  [0, 1],
];

/**
 * Bayes' rule over all counts of a hall and a kitchen with a household of so many, by full transition matrices and sums:
 * nothing of the ledger's own.
 */
class Exhaustive {
  readonly states: [number, number][] = [];
  chances: number[];

  constructor(
    start: [number, number],
    household: number,
    private readonly doors: DoorRates[],
  ) {
    for (let hall = 0; hall <= household; hall++)
      for (let kitchen = 0; hall + kitchen <= household; kitchen++) this.states.push([hall, kitchen]);
    this.chances = this.states.map(([h, k]) => (h === start[0] && k === start[1] ? 1 : 0));
  }

  /** What becomes of the chances when one person certainly passes; those who can't are gone. */
  private passed(chances: number[], door: number, forward: boolean): number[] {
    const [hall, kitchen] = door === 0 ? [1, 0] : [-1, 1];
    const sign = forward ? 1 : -1;
    return this.states.map(([h, k]) => {
      const from = this.states.findIndex(([a, b]) => a === h - sign * hall && b === k - sign * kitchen);
      return from < 0 ? 0 : chances[from]!;
    });
  }

  tally(door: number, forward: boolean): void {
    const seen = this.chances;
    let quiet = 1;
    const after = seen.map(() => 0);
    this.doors.forEach(({ missed, crossings_per_tally }, d) => {
      quiet -= missed * crossings_per_tally;
      for (const way of [true, false])
        this.passed(seen, d, way).forEach((chance, s) => (after[s]! += (chance * missed * crossings_per_tally) / 2));
    });
    seen.forEach((chance, s) => (after[s]! += chance * quiet));
    const { missed, reversed, invented } = this.doors[door]!;
    const right = this.passed(after, door, forward);
    const wrong = this.passed(after, door, !forward);
    const weighed = after.map((c, s) => (1 - missed - reversed) * right[s]! + reversed * wrong[s]! + invented * c);
    const sum = weighed.reduce((a, b) => a + b, 0);
    this.chances = weighed.map((w) => w / sum);
  }

  median(room: 0 | 1): number {
    let below = 0;
    for (let count = 0; ; count++) {
      this.states.forEach((state, s) => (below += state[room] === count ? this.chances[s]! : 0));
      if (below >= 0.5) return count;
    }
  }
}

/** 0 hall, 1 kitchen, 2 parlour, 3 bedroom; every door leads to the hall. */
const FAMILY: [number, number][] = [
  [OUT, 0],
  [0, 1],
  [0, 2],
  [0, 3],
];

/** Four persons who wander at random; doors miss 4 % of them, turn 1 % round and invent 2 % more. */
function familyDay(crossings: number) {
  const stream = Stream.root('family');
  const people = [0, 0, 0, 0];
  const tallies: [number, boolean][] = [];
  const truth: number[][] = [];
  for (let n = 0; n < crossings; n++) {
    const draw = (k: number) => stream.at(5 * n + k);
    const who = Math.floor(draw(0) * people.length);
    const ways = FAMILY.flatMap(([from, to], door) =>
      people[who] === from
        ? [{ door, forward: true, to }]
        : people[who] === to
          ? [{ door, forward: false, to: from }]
          : [],
    );
    const { door, forward, to } = ways[Math.floor(draw(1) * ways.length)]!;
    people[who] = to;
    const rooms = [0, 1, 2, 3].map((room) => people.filter((at) => at === room).length);
    const tell = (at: number, way: boolean) => {
      tallies.push([at, way]);
      truth.push(rooms);
    };
    if (draw(2) >= 0.04) tell(door, forward !== draw(2) > 0.99);
    if (draw(3) < 0.02) tell(Math.floor(draw(4) * FAMILY.length), draw(4) * 64 - Math.floor(draw(4) * 64) < 0.5);
  }
  return { tallies, truth };
}

describe('the likelihood ledger', () => {
  test('is exact Bayes over all counts of a small house when it keeps enough of them', () => {
    const share = fc.double({ min: 0.001, max: 0.2, noNaN: true });
    const door = fc.record({
      missed: share,
      reversed: share,
      invented: share,
      crossings_per_tally: fc.double({ min: 0.1, max: 0.7, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.tuple(door, door),
        fc.integer({ min: 1, max: 4 }),
        fc.array(fc.tuple(fc.nat(1), fc.boolean()), { minLength: 1, maxLength: 40 }),
        (doors, household, tallies) => {
          const exact = new Exhaustive([1, 0], household, doors);
          const ledger = new LikelihoodLedger(houseOf([1, 0], DOORS, doors), household, 4096);
          for (const [d, forward] of tallies) {
            exact.tally(d, forward);
            ledger.tally(0, d, forward ? 'forward' : 'backward');
            exact.states.forEach((state, s) =>
              expect(Math.abs(ledger.weightOf(state) - exact.chances[s]!)).toBeLessThan(1e-9),
            );
            // At a tie within rounding either median is one.
            const torn = exact.states.some((_, s) => {
              const sums = [0, 1].map((room) =>
                exact.chances.reduce(
                  (sum, chance, i) => sum + (exact.states[i]![room]! <= exact.states[s]![room]! ? chance : 0),
                  0,
                ),
              );
              return sums.some((sum) => Math.abs(sum - 0.5) < 1e-9);
            });
            if (!torn) expect(ledger.counts).toEqual([exact.median(0), exact.median(1)]);
          }
        },
      ),
      { seed: 5, numRuns: 60 },
    );
  });

  test('keeping few of many is nearly the same as keeping all, and beats ledgers that know no rates', () => {
    const { tallies, truth } = familyDay(4000);
    const own = FAMILY.map(() => rates(0.04, 0.01, 0.02, 0.25));
    const house = houseOf([4, 0, 0, 0], FAMILY, own);
    const all = new LikelihoodLedger(house, 4, 4096);
    const few = new LikelihoodLedger(house, 4, 35);
    const [conserve, floor] = [
      makeLedger({ use: 'conserve', household: 4 }, house),
      makeLedger({ use: 'floor' }, house),
    ];
    const error = [all, few, conserve, floor].map(() => 0);
    let same = 0;
    tallies.forEach(([door, forward], i) => {
      [all, few, conserve, floor].forEach((ledger, l) => {
        ledger.tally(i, door, forward ? 'forward' : 'backward');
        ledger.counts.forEach((count, room) => (error[l]! += Math.abs(count - truth[i]![room]!)));
      });
      if (few.counts.every((count, room) => count === all.counts[room])) same++;
    });
    // All 70 counts that a household of four can have are kept by the one, half of them by the other.
    expect(same / tallies.length).toBeGreaterThan(0.98);
    const [exact, pruned, conserved, floored] = error as [number, number, number, number];
    expect(Math.abs(pruned / exact - 1)).toBeLessThan(0.05);
    expect(exact).toBeLessThan(conserved);
    expect(conserved).toBeLessThan(floored);
  });

  test('a tally out of an empty room is laid on the door that errs more', () => {
    // Nobody in; one is said to go from hall to kitchen. The front door misses often, the kitchen door invents never.
    const poorFront = [rates(0.4, 0.001, 0.001), rates(0.001, 0.001, 0.001)];
    expect(play(new LikelihoodLedger(houseOf([0, 0], DOORS, poorFront), null, 64), '+1')).toEqual([[0, 1]]);
    const poorKitchen = [rates(0.001, 0.001, 0.001), rates(0.001, 0.001, 0.4)];
    expect(play(new LikelihoodLedger(houseOf([0, 0], DOORS, poorKitchen), null, 64), '+1')).toEqual([[0, 0]]);
  });

  test('nobody comes in when the whole household is in', () => {
    const ledger = new LikelihoodLedger(
      houseOf([1, 1], DOORS, [rates(0.01, 0.05, 0.01), rates(0.01, 0.01, 0.01)]),
      2,
      64,
    );
    // The only sense of "in" is that somebody went out: a reversed tally.
    expect(play(ledger, '+0')).toEqual([[0, 1]]);
  });

  test('goes on when a tally can have no sense at all', () => {
    const sure = rates(0, 0, 0);
    const ledger = new LikelihoodLedger(houseOf([0, 0], DOORS, [sure, sure]), null, 4);
    expect(play(ledger, '+1 +0 +1')).toEqual([
      [0, 0],
      [1, 0],
      [0, 1],
    ]);
  });

  test('without rates it is refused', () => {
    expect(() => new LikelihoodLedger(houseOf([0, 0], DOORS), null, 4)).toThrow(/door 0 has no rates/);
  });
});

test('the k-th largest is that of the sorted list', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 1 }), fc.nat(), (values, pick) => {
      const k = (pick % values.length) + 1;
      const sorted = [...values].sort((a, b) => b - a);
      expect(kthLargest(Float64Array.from(values), values.length, k)).toBe(sorted[k - 1]);
    }),
  );
});
