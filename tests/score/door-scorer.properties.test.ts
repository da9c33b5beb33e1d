import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Visit } from '../../src/agents/visit.js';
import { DoorCounter, type DoorCounts, wrongOf } from '../../src/score/door-counts.js';
import { DoorScorer, LARGEST_CLUSTER } from '../../src/score/door-scorer.js';
import { COLUMNS, ROWS } from '../../src/score/metrics-schema.js';
import { cell, judge, type Tally, visit } from './builders.js';

const LATENCY = 3;
const direction = fc.constantFrom('forward' as const, 'backward' as const);
/** Times on a coarse grid: overlaps, shared instants and ties are common. */
const someVisits = (most: number, span: number) =>
  fc
    .array(
      fc.record({
        enter: fc.integer({ min: 0, max: span }),
        stay: fc.integer({ min: 2, max: 12 }),
        persons: fc.constantFrom(0, 1, 1, 1, 2),
        crosses: fc.boolean(),
        direction,
        kind: fc.constantFrom('through' as const, 'linger' as const, 'turn-back' as const),
      }),
      { maxLength: most, size: 'max' },
    )
    .map((drawn) =>
      drawn
        .sort((a, b) => a.enter - b.enter)
        .map((d, i) =>
          visit({
            number: i + 1,
            // Body numbers in no order of time.
            body: ((i * 7) % 13) + 1,
            persons: d.persons,
            kind: d.kind,
            direction: d.direction,
            enter_us: d.enter,
            cross_us: d.crosses ? d.enter + (d.stay >> 1) : null,
            leave_us: d.enter + d.stay,
          }),
        ),
    );
const someTallies = (most: number, span: number) =>
  fc
    .array(fc.tuple(fc.integer({ min: 0, max: span }), direction), { maxLength: most, size: 'max' })
    .map((drawn) => drawn.sort((a, b) => a[0] - b[0]));

const PERSON_ROWS = ['forward', 'backward'] as const;
const OTHER_ROWS = ROWS.slice(2);

function crossings(visits: readonly Visit[], direction: string): number {
  return visits.reduce((sum, v) => sum + (v.cross_us !== null && v.direction === direction ? v.persons : 0), 0);
}

function checkSums(counts: DoorCounts, visits: readonly Visit[], tallies: readonly Tally[]): void {
  expect(counts.tallies).toBe(tallies.length);
  const net = tallies.reduce((sum, [, d]) => sum + (d === 'forward' ? 1 : -1), 0);
  expect(counts.net_error).toBe(net - crossings(visits, 'forward') + crossings(visits, 'backward'));
  for (const row of PERSON_ROWS) {
    const sum = cell(counts, row, 'forward') + cell(counts, row, 'backward') + cell(counts, row, 'nothing');
    expect(sum).toBe(crossings(visits, row));
  }
  const entries = OTHER_ROWS.filter((row) => row !== 'nobody').reduce(
    (sum, row) => sum + cell(counts, row, 'forward') + cell(counts, row, 'backward') + cell(counts, row, 'nothing'),
    0,
  );
  expect(entries).toBe(visits.filter((v) => v.cross_us === null || v.persons === 0).length);
  const invented = OTHER_ROWS.reduce(
    (sum, row) => sum + cell(counts, row, 'forward') + cell(counts, row, 'backward') + cell(counts, row, 'extra'),
    0,
  );
  expect(counts.total.invented).toBe(invented);
  for (const parts of [counts.kinds, counts.statures, counts.entries]) {
    expect(parts.reduce((sum, part) => sum + part.visits, 0)).toBe(visits.length);
    const owned = parts.reduce((sum, part) => sum + wrongOf(part), 0);
    expect(owned).toBe(wrongOf(counts.total) - cell(counts, 'nobody', 'forward') - cell(counts, 'nobody', 'backward'));
  }
}

test('every tally appears exactly once, and a person row without extra sums to its crossings', () => {
  fc.assert(
    fc.property(someVisits(12, 40), someTallies(15, 60), (visits, tallies) => {
      checkSums(judge(visits, tallies, LATENCY), visits, tallies);
    }),
    { seed: 2, numRuns: 2000 },
  );
});

/** Fewest wrongs over every way to give tallies to person-crossings that they may be matched to. */
function fewestWrongs(visits: readonly Visit[], tallies: readonly Tally[]): number {
  const persons = visits.flatMap((v) => (v.cross_us === null ? [] : Array.from({ length: v.persons }, () => v)));
  const best = (t: number, taken: number): number => {
    if (t === tallies.length) return persons.length - taken.toString(2).replaceAll('0', '').length;
    const [time, way] = tallies[t]!;
    let fewest = 1 + best(t + 1, taken);
    persons.forEach((v, p) => {
      if ((taken >> p) & 1 || time < v.enter_us || time > v.leave_us + LATENCY) return;
      fewest = Math.min(fewest, (v.direction === way ? 0 : 1) + best(t + 1, taken | (1 << p)));
    });
    return fewest;
  };
  return best(0, 0);
}

test('wrongs are the fewest that any matching gives, found by trying all', () => {
  fc.assert(
    fc.property(someVisits(6, 15), someTallies(5, 25), (visits, tallies) => {
      expect(wrongOf(judge(visits, tallies, LATENCY).total)).toBe(fewestWrongs(visits, tallies));
    }),
    { seed: 3, numRuns: 1500 },
  );
});

/** Feeds in order of time, saying how far all is known after each event, at the times that `tells` picks. */
function fedByAndBy(
  visits: readonly Visit[],
  tallies: readonly Tally[],
  tells: (i: number) => boolean,
  largest = LARGEST_CLUSTER,
): DoorCounts {
  const counter = new DoorCounter();
  const scorer = new DoorScorer(LATENCY, counter, largest);
  const events = [
    ...visits.map((v) => ({ time: v.enter_us, put: () => scorer.visit(v) })),
    ...tallies.map(([time, way]) => ({ time, put: () => scorer.tally(time, way) })),
  ].sort((a, b) => a.time - b.time);
  events.forEach(({ time, put }, i) => {
    if (tells(i)) scorer.advance(time);
    put();
  });
  scorer.close();
  return counter.counts();
}

test('how often the caller says that nothing earlier will come changes nothing, cut clusters included', () => {
  fc.assert(
    fc.property(someVisits(40, 60), someTallies(40, 80), fc.array(fc.boolean(), { minLength: 80 }), (v, t, tells) => {
      for (const largest of [8, LARGEST_CLUSTER]) {
        const atOnce = fedByAndBy(v, t, () => false, largest);
        expect(fedByAndBy(v, t, () => true, largest)).toEqual(atOnce);
        expect(fedByAndBy(v, t, (i) => tells[i] ?? false, largest)).toEqual(atOnce);
      }
    }),
    { seed: 4, numRuns: 300 },
  );
});

test('swapping all directions swaps the rows and columns, and nothing else', () => {
  const turned = { forward: 'backward', backward: 'forward' } as const;
  fc.assert(
    fc.property(someVisits(10, 30), someTallies(12, 50), (visits, tallies) => {
      const plain = judge(visits, tallies, LATENCY);
      const mirrored = judge(
        visits.map((v) => ({ ...v, direction: turned[v.direction] })),
        tallies.map(([time, way]) => [time, turned[way]]),
        LATENCY,
      );
      expect(mirrored.total).toEqual(plain.total);
      expect(mirrored.net_error + plain.net_error).toBe(0);
      for (const row of ROWS) {
        for (const column of COLUMNS) {
          const other = column === 'forward' || column === 'backward' ? turned[column] : column;
          const otherRow = row === 'forward' || row === 'backward' ? turned[row] : row;
          expect(cell(mirrored, otherRow, other)).toBe(cell(plain, row, column));
        }
      }
    }),
    { seed: 5, numRuns: 500 },
  );
});

test('a cluster that is cut keeps every sum, and costs few wrongs more than one that is not', () => {
  let cutWrongs = 0;
  let wholeWrongs = 0;
  fc.assert(
    fc.property(someVisits(120, 120), someTallies(120, 140), (visits, tallies) => {
      const cut = fedByAndBy(visits, tallies, () => true, 32);
      const whole = fedByAndBy(visits, tallies, () => true, Infinity);
      checkSums(cut, visits, tallies);
      expect(wrongOf(cut.total)).toBeGreaterThanOrEqual(wrongOf(whole.total));
      cutWrongs += wrongOf(cut.total);
      wholeWrongs += wrongOf(whole.total);
    }),
    { seed: 6, numRuns: 100 },
  );
  // Tallies here are drawn blindly, the worst there is; and clusters are cut at an eighth of the true size.
  expect(cutWrongs / wholeWrongs).toBeLessThan(1.02);
});

test('a wide door that never empties is judged in flat memory', () => {
  const counter = new DoorCounter();
  const scorer = new DoorScorer(0, counter);
  const people = 50_000;
  let most = 0;
  for (let i = 0; i < people; i++) {
    const enter_us = i * 100_000;
    scorer.advance(enter_us);
    // Twenty at a time, one in fifty a lingerer who stays for a minute, half of the tallies reversed or doubled.
    const lingers = i % 50 === 0;
    scorer.visit(
      visit({
        number: i + 1,
        body: i + 1,
        enter_us,
        direction: i % 3 === 0 ? 'backward' : 'forward',
        kind: lingers ? 'linger' : 'through',
        cross_us: lingers ? null : enter_us + 1_000_000,
        leave_us: enter_us + (lingers ? 60_000_000 : 2_000_000),
      }),
    );
    scorer.tally(enter_us, i % 4 === 0 ? 'backward' : 'forward');
    most = Math.max(most, scorer.held);
  }
  scorer.close();
  expect(counter.counts().total.visits).toBe(people);
  expect(counter.counts().tallies).toBe(people);
  expect(most).toBeLessThan(3 * LARGEST_CLUSTER);
});
