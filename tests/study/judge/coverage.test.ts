/**
 * Intervals hold the truth as often as they say, on a problem whose truth is known: rods of one speed under the four-level
 * walk, at three spacings. Counts of how often are binomial; they are held against the 0.1 % point of the binomial
 * distribution with the stated rate, so a right rate fails here once in a thousand times. Seeds are fixed.
 */
import { describe, expect, test } from 'vitest';
import { bound, alphaOf } from '../../../src/study/judge/pick.js';
import type { Ratio } from '../../../src/study/judge/measure.js';
import { rank } from '../../../src/study/judge/ranking.js';
import { sampleOf } from '../../../src/study/judge/samples.js';
import { estimateOf, measureOf } from '../../../src/study/judge/measure.js';
import { Stopping } from '../../../src/study/judge/stopping.js';
import { binomialCdf } from '../../../src/engine/distribution-functions.js';
import { Stream } from '../../../src/engine/stream.js';
import { unflat } from '../../../src/study/cells/cell.js';
import { designOf, missedOf100, planned, rodsText, runHere } from '../studies.js';
import type { FlatCell } from '../../../src/study/cells/cell.js';
import { howMany } from '../../how-many.js';

const STUDIES = howMany(80, 1000);
const SPACINGS = [0.05, 0.1, 0.2];

/** Least count of `n` that a rate of `p` gives in all but one of a thousand cases. */
function least(n: number, p: number): number {
  let k = 0;
  while (binomialCdf(k, n, p) < 0.001) k++;
  return k;
}

const NO_EFFORT = { holes: 0, cable_m: null, hours: 0, cost: null };

describe('rods, simulated', () => {
  const studies = Array.from({ length: STUDIES }, (_, s) => {
    const plan = planned(designOf(rodsText(`coverage ${s}`, 0.5)), {
      factors: [{ key: 'doors.*.pair.spacing_m', values: SPACINGS }],
      replicates: 8,
    });
    const { standing, journal } = runHere(plan);
    const { rank: measure } = plan.measures(plan.designs[0]!);
    const ratios = standing.designs.map((design) =>
      Array.from({ length: design.complete }, (_, r) =>
        measure.of(unflat(journal.read(design.span(r + 1)) as unknown as FlatCell, design.planned.shape)),
      ),
    );
    return { measure, ratios };
  });

  test('each 95 % interval by itself', () => {
    const held = studies.flatMap(({ measure, ratios }) =>
      ratios.map((of, d) => {
        const { low, high } = estimateOf(measure, of);
        const truth = missedOf100(SPACINGS[d]!);
        return low! <= truth && truth <= high! ? 1 : 0;
      }),
    );
    // The three designs of a study share their crowd: one of them counts.
    for (const d of [0, 1, 2]) {
      const count = held.filter((_, i) => i % 3 === d).reduce<number>((sum, one) => sum + one, 0);
      expect(count).toBeGreaterThanOrEqual(least(STUDIES, 0.95));
    }
  });

  test('all differences to the best at once', () => {
    const held = studies.filter(({ measure, ratios }) => {
      const ranked = rank(
        ratios.map((of, d) => ({ number: d + 1, crowd: 1, sample: sampleOf(of, measure)!, effort: NO_EFFORT })),
        'least',
      );
      const best = ranked[0]!.design;
      return ranked.slice(1).every(({ design, worse_than_best }) => {
        const truth = missedOf100(SPACINGS[design - 1]!) - missedOf100(SPACINGS[best - 1]!);
        return worse_than_best!.low! <= truth && truth <= worse_than_best!.high!;
      });
    });
    expect(held.length).toBeGreaterThanOrEqual(least(STUDIES, 0.95));
  });

  test('the set that may hold the best holds it, and leaves the others out where it can', () => {
    const sets = studies.map(({ measure, ratios }) =>
      rank(
        ratios.map((of, d) => ({ number: d + 1, crowd: 1, sample: sampleOf(of, measure)!, effort: NO_EFFORT })),
        'least',
      )
        .filter(({ perhaps_best }) => perhaps_best)
        .map(({ design }) => design),
    );
    expect(sets.filter((set) => set.includes(1)).length).toBeGreaterThanOrEqual(least(STUDIES, 0.95));
    expect(sets.filter((set) => !set.includes(3)).length).toBeGreaterThan(STUDIES / 2);
  });

  test('the same crowds lower the variance of a difference', () => {
    const variance = (values: readonly number[]): number => {
      const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
      return values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (values.length - 1);
    };
    const value = (s: number, d: number): number => sampleOf(studies[s]!.ratios[d]!, studies[s]!.measure)!.value;
    const paired = studies.map((_, s) => value(s, 1) - value(s, 0));
    // Of another study's crowd: independent.
    const apart = studies.map((_, s) => value(s, 1) - value((s + 1) % STUDIES, 0));
    expect(variance(apart) / variance(paired)).toBeGreaterThan(3);
  });
});

describe('a pick among many designs that stop when they please', () => {
  const measure = measureOf('house.wrong_per_100', { doors: ['a'], rooms: [], logics: ['l'], ledgers: [], hours: 1 });
  if (typeof measure === 'string') throw new Error(measure);
  const K = 12;
  const RUNS = howMany(250, 4000);
  /** True rates a little above what is wanted: whoever is picked is picked wrongly. */
  const TRUTHS = Array.from({ length: K }, (_, k) => 3 + 0.02 * k);
  const stopping = new Stopping({ until: 'house.wrong_per_100', half_width: 0.6, batch: 4, at_least: 6, at_most: 30 });

  /** Passages wrong by chance, more so on busy days: the same day for all designs. */
  function study(s: number, busy: number): { ratios: Ratio[]; ended: number }[] {
    const draws = Stream.root('pick').child(String(s));
    return TRUTHS.map((truth, k) => {
      const ratios: Ratio[] = [];
      const own = draws.child(String(k));
      let at = 0;
      for (let n = 1; ; n++) {
        const day = busy === 0 ? 1 : 1 + busy * (draws.at(n) - 0.5);
        const exposure = 120;
        let events = 0;
        for (let i = 0; i < exposure; i++) if (own.at(at++) < (truth / 100) * day) events++;
        ratios.push({ events, exposure });
        if (
          n === stopping.lookAfter(n - 1) &&
          stopping.endsAt(n, () => estimateOf(measure as Exclude<typeof measure, string>, ratios), 0) !== null
        )
          return { ratios, ended: n };
      }
    });
  }

  test.each([
    ['independent passages', 0],
    ['days that differ', 1.2],
  ])('goes wrong in at most 5 of 100 studies: %s', (_, busy) => {
    const alpha = alphaOf(K, 1, stopping.looks);
    let wrong = 0;
    const ends = new Set<number>();
    for (let s = 0; s < RUNS; s++) {
      const designs = study(s, busy);
      for (const { ended } of designs) ends.add(ended);
      if (designs.some(({ ratios }, k) => bound(ratios, measure, 'upper', alpha)! < TRUTHS[k]!)) wrong++;
    }
    // They did stop at different times.
    expect(ends.size).toBeGreaterThan(2);
    expect(1 - binomialCdf(wrong - 1, RUNS, 0.05)).toBeGreaterThan(0.001);
  });

  test('and still finds what is far better', () => {
    const alpha = alphaOf(K, 1, stopping.looks);
    const found = Array.from({ length: 50 }, (_, s) => study(s, 0)[0]!).filter(
      ({ ratios }) => bound(ratios, measure, 'upper', alpha)! < 8,
    );
    expect(found.length).toBe(50);
  });
});
