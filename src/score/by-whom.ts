/** Who is counted wrong: by walker and kind of passage, and by stature. */
import { type MixEntry, PASSAGE_KINDS, type PassageKind } from '../agents/schema.js';
import { type CaseCounts, type DoorCounts, sumCases, wrongOf } from './door-counts.js';
import { ratioEstimate } from './estimates.js';
import type { DoorMetrics, Estimate } from './metrics-schema.js';

const NONE: CaseCounts = sumCases([]);

/** One row per walker and kind that was seen, in the order of the mix, then of kinds. */
export function byKind(mix: readonly MixEntry[], replicates: readonly DoorCounts[]): DoorMetrics['by_kind'] {
  const whos = new Set(mix.map(({ who }) => who));
  for (const door of replicates) for (const { who } of door.kinds) whos.add(who);
  const rows: DoorMetrics['by_kind'] = [];
  for (const who of whos) {
    for (const kind of PASSAGE_KINDS) {
      const cases = replicates.map((door) => caseOf(door, who, kind));
      const { visits, crossings, missed, reversed, extra, invented } = sumCases(cases);
      if (visits === 0) continue;
      rows.push({
        who,
        kind,
        visits,
        person_crossings: crossings,
        missed,
        reversed,
        extra,
        invented,
        wrong_per_100_visits: wrongPer100Visits(cases),
      });
    }
  }
  return rows;
}

function caseOf(door: DoorCounts, who: string, kind: PassageKind): CaseCounts {
  return door.kinds.find((counts) => counts.who === who && counts.kind === kind) ?? NONE;
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
