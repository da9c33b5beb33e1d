/** In whatever order cells are done, by whomever, and however often: the study is the same. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Standing } from '../../../src/study/run/standing.js';
import { summarise } from '../../../src/study/summary.js';
import { Memory, designOf, planned, rodsText, runHere } from '../studies.js';

const RODS = designOf(rodsText('order', 0.3));
const PLAN = planned(RODS, {
  factors: [{ key: 'doors.*.pair.spacing_m', values: [0.05, 0.1, 0.25] }],
  // Two of the designs are narrow early, one runs to its last replicate.
  replicates: { until: 'house.wrong_per_100', half_width: 1.6, batch: 2, at_least: 4, at_most: 12 },
});
const WHOLE = runHere(PLAN);
const SUMMARY = summarise(WHOLE.standing, WHOLE.journal);

test('designs end at different numbers of replicates', () => {
  expect(SUMMARY.finished).toBe(true);
  expect(new Set(SUMMARY.designs.map(({ replicates }) => replicates)).size).toBeGreaterThan(1);
  expect(new Set(SUMMARY.designs.map(({ ended }) => ended))).toContain('narrow');
});

test('any order, and some of them twice', () => {
  fc.assert(
    fc.property(
      fc.shuffledSubarray(WHOLE.journal.entries, { minLength: WHOLE.journal.entries.length }),
      fc.subarray(WHOLE.journal.entries),
      (shuffled, twice) => {
        const standing = new Standing(PLAN);
        const journal = new Memory();
        for (const entry of [...shuffled, ...twice]) standing.take(entry, journal.put(entry));
        expect(summarise(standing, journal)).toEqual(SUMMARY);
      },
    ),
    { seed: 2, numRuns: 30 },
  );
});

test('cut off anywhere and gone on with: no cell is asked for twice, and the study is the same', () => {
  fc.assert(
    fc.property(fc.shuffledSubarray(WHOLE.journal.entries), (before) => {
      const standing = new Standing(PLAN);
      const journal = new Memory();
      for (const entry of before) standing.take(entry, journal.put(entry));
      const known = new Set(before.map(({ d, r }) => `${d} ${r}`));
      for (let cell = standing.next(); cell !== null; cell = standing.next()) {
        const { planned: design, replicate } = cell;
        expect(known.has(`${design.key} ${replicate}`)).toBe(false);
        const entry = WHOLE.journal.entries.find(({ d, r }) => d === design.key && r === replicate)!;
        standing.take(entry, journal.put(entry));
      }
      expect(summarise(standing, journal)).toEqual(SUMMARY);
    }),
    { seed: 4, numRuns: 30 },
  );
});

test('replicates beyond the end of a design, left from a larger study, count for nothing', () => {
  const larger = runHere(
    planned(RODS, { factors: [{ key: 'doors.*.pair.spacing_m', values: [0.05, 0.1, 0.25] }], replicates: 12 }),
  );
  const standing = new Standing(PLAN);
  const journal = new Memory();
  for (const entry of larger.journal.entries) standing.take(entry, journal.put(entry));
  expect(standing.next()).toBe(null);
  expect(summarise(standing, journal)).toEqual(SUMMARY);
});

describe('a design that fails', () => {
  const plan = planned(RODS, { factors: [{ key: 'doors.*.pair.spacing_m', values: [0.05, 0.1] }], replicates: 6 });
  const { journal: whole } = runHere(plan);
  const [first] = plan.designs;

  test('the first failing replicate counts, whichever came first; the others before it are done', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([2, 4, 5], { minLength: 1 }), (failing) => {
        const standing = new Standing(plan);
        const journal = new Memory();
        const asked: number[] = [];
        for (const r of failing) standing.take({ d: first!.key, r, failed: `at ${r}` }, { at: -1, bytes: 0 });
        for (let cell = standing.next(); cell !== null; cell = standing.next()) {
          const { planned: design, replicate } = cell;
          if (design === first) asked.push(replicate);
          const entry = whole.entries.find(({ d, r }) => d === design.key && r === replicate)!;
          standing.take(entry, journal.put(entry));
        }
        const least = Math.min(...failing);
        expect(asked).toEqual(Array.from({ length: least - 1 }, (_, i) => i + 1));
        const { designs, finished, ranking } = summarise(standing, journal);
        expect(finished).toBe(true);
        expect(designs[0]).toMatchObject({ state: 'failed', error: `at ${least}`, replicates: least - 1 });
        expect(designs[1]).toMatchObject({ state: 'done', replicates: 6 });
        expect(ranking.rows.map(({ design }) => design)).toEqual([2]);
      }),
      { seed: 1, numRuns: 20 },
    );
  });
});

test('slices part the designs among them', () => {
  const parts = [0, 1].map((part) => {
    const standing = new Standing(PLAN, ({ number }) => number % 2 === part);
    const asked = new Set<number>();
    for (let cell = standing.next(); cell !== null; cell = standing.next()) {
      asked.add(cell.planned.number);
      const entry = WHOLE.journal.entries.find(({ d, r }) => d === cell!.planned.key && r === cell!.replicate)!;
      standing.take(entry, { at: 0, bytes: 0 });
    }
    expect(standing.finished).toBe(true);
    return [...asked];
  });
  expect(parts).toEqual([[2], [1, 3]]);
});
