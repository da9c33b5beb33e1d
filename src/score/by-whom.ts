/** Who is counted wrong: by walker and kind of passage, and by stature. */
import { type MixEntry, PASSAGE_KINDS, type PassageKind } from '../agents/schema.js';
import { perWeek, type RareKind } from './kinds-per-week.js';
import { type CaseCounts, type DoorCounts, type KindCounts, sumCases, wrongOf } from './door-counts.js';
import { ratioEstimate } from './estimates.js';
import type { DoorMetrics, Estimate } from './metrics-schema.js';

const NONE: CaseCounts = sumCases([]);
const NO_KIND: KindCounts = { ...NONE, net_error: 0, first_wrong_us: -1 };

/**
 * One row per walker and kind that was seen, in the order of the mix, then of kinds.
 *
 * @param replicates one entry each, `hours` long
 */
export function byKind(
  mix: readonly MixEntry[],
  replicates: readonly DoorCounts[],
  hours: number,
  rare: readonly RareKind[],
): DoorMetrics['by_kind'] {
  return kindsSeen(mix, replicates).map(({ who, kind, cases }) => {
    const { visits, crossings, missed, reversed, extra, invented } = sumCases(cases);
    return {
      who,
      kind,
      visits,
      person_crossings: crossings,
      missed,
      reversed,
      extra,
      invented,
      wrong_per_100_visits: wrongPer100Visits(cases),
      ...perWeek(
        cases,
        hours,
        rare.find((one) => one.who === who && one.kind === kind),
      ),
    };
  });
}

/** Walkers and kinds that were seen at a door, with their counts in each replicate. */
export function kindsSeen(
  mix: readonly MixEntry[],
  replicates: readonly DoorCounts[],
): { readonly who: string; readonly kind: PassageKind; readonly cases: readonly KindCounts[] }[] {
  const whos = new Set(mix.map(({ who }) => who));
  for (const door of replicates) for (const { who } of door.kinds) whos.add(who);
  return [...whos].flatMap((who) =>
    PASSAGE_KINDS.flatMap((kind) => {
      const cases = replicates.map((door) => caseOf(door, who, kind));
      return cases.some(({ visits }) => visits > 0) ? [{ who, kind, cases }] : [];
    }),
  );
}

function caseOf(door: DoorCounts, who: string, kind: PassageKind): KindCounts {
  return door.kinds.find((counts) => counts.who === who && counts.kind === kind) ?? NO_KIND;
}

/** One row per band of 0.1 m that was seen, ascending. */
export function byStature(replicates: readonly DoorCounts[]): DoorMetrics['by_stature'] {
  const bands = [...new Set(replicates.flatMap((door) => door.statures.map(({ band }) => band)))].sort((a, b) => a - b);
  return bands.map((band) => {
    const cases = replicates.map((door) => door.statures.find((counts) => counts.band === band) ?? NONE);
    return {
      from_m: band / 10,
      to_m: (band + 1) / 10,
      visits: sumCases(cases).visits,
      wrong_per_100_visits: wrongPer100Visits(cases),
    };
  });
}

function wrongPer100Visits(cases: readonly CaseCounts[]): Estimate {
  return ratioEstimate(
    cases.map(wrongOf),
    cases.map(({ visits }) => visits),
    { scale: 100, nothing: 'no visits' },
  );
}
