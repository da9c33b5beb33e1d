/**
 * What each factor does, whatever the others are: from pairs of designs that differ in it alone, averaged; and how far two
 * factors act on each other, from fours of designs. Combinations that were left out need no guess this way.
 */
import { withLevel } from '../plan/factor.js';
import type { Interaction, MainEffect, StudySummary } from '../summary-schema.js';
import { type Contrast, type Sample, contrast, meanSample } from './samples.js';
import { simultaneous } from './simultaneous.js';

/** A design at its place among the combinations. */
export interface Placed {
  readonly levels: readonly number[];
  readonly crowd: number;
  readonly sample: Sample;
}

/** Interactions that are told, the largest. */
const MOST_INTERACTIONS = 40;

/**
 * @param designs over the same replicates
 * @param levels per factor: how many it has
 * @param ordered per factor: whether its levels are numbers, so that neighbours are compared; else each with the first
 */
export function effects(
  designs: readonly Placed[],
  levels: readonly number[],
  ordered: readonly boolean[],
): Pick<StudySummary['effects'], 'main' | 'interactions'> {
  const at = new Map(designs.map((design) => [design.levels.join(), design]));
  const steps = levels.map((count, f) =>
    Array.from({ length: count - 1 }, (_, i) => ({ level: i + 1, against: ordered[f] ? i : 0 })),
  );
  const otherwise = (own: readonly number[], f: number, level: number): Placed | undefined =>
    at.get(withLevel(own, f, level).join());

  const main = steps.flatMap((ofFactor, factor) =>
    ofFactor.flatMap(({ level, against }) => {
      const pairs = designs.flatMap((high) => {
        const low = high.levels[factor] === level ? otherwise(high.levels, factor, against) : undefined;
        return low ? [{ high, low }] : [];
      });
      if (pairs.length === 0) return [];
      const paired = pairs.every(({ high, low }) => high.crowd === low.crowd);
      const change = contrast(
        meanSample(pairs.map(({ high }) => high.sample)),
        meanSample(pairs.map(({ low }) => low.sample)),
        paired,
      );
      return [{ factor, level, against, designs: pairs.length, contrast: change }];
    }),
  );

  const together = steps.flatMap((ofFirst, f) =>
    steps.slice(f + 1).flatMap((ofSecond, s) =>
      ofFirst.flatMap((a) =>
        ofSecond.flatMap((b) => {
          const g = f + 1 + s;
          const fours = designs.flatMap((hh) => {
            if (hh.levels[f] !== a.level || hh.levels[g] !== b.level) return [];
            // High and low levels of the two: `lh` has the first one low.
            const lh = otherwise(hh.levels, f, a.against);
            const hl = otherwise(hh.levels, g, b.against);
            const ll = lh && otherwise(lh.levels, g, b.against);
            return lh && hl && ll ? [[hh, ll, lh, hl] as const] : [];
          });
          if (fours.length === 0) return [];
          return [
            {
              factors: [f, g] as [number, number],
              levels: [
                [a.level, a.against],
                [b.level, b.against],
              ] as [[number, number], [number, number]],
              designs: fours.length,
              contrast: ofFours(fours),
            },
          ];
        }),
      ),
    ),
  );

  return {
    main: main.map(
      ({ contrast: change, ...rest }): MainEffect => ({ ...rest, change: simultaneous(change, main.length) }),
    ),
    interactions: together
      .map(({ contrast: change, ...rest }): Interaction => ({ ...rest, change: simultaneous(change, together.length) }))
      .sort((a, b) => Math.abs(b.change.value) - Math.abs(a.change.value))
      .slice(0, MOST_INTERACTIONS),
  };
}

/** (hh − lh) − (hl − ll), averaged: what the first factor does at the second's one level more than at its other. */
function ofFours(fours: readonly (readonly [Placed, Placed, Placed, Placed])[]): Contrast {
  const paired = fours.every((four) => four.every(({ crowd }) => crowd === four[0].crowd));
  const side = (i: 0 | 1 | 2 | 3): Sample => meanSample(fours.map((four) => four[i].sample));
  const plus = meanSample([side(0), side(1)]);
  const minus = meanSample([side(2), side(3)]);
  const { value, error, freedom } = contrast(plus, minus, paired);
  return { value: 2 * value, error: 2 * error, freedom };
}
