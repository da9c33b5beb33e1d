/** From what was counted in each replicate to metrics.json. */
import type { MixEntry } from '../agents/schema.js';
import { byAssumedShare } from './by-share.js';
import { byKind, byStature } from './by-whom.js';
import type { DoorCounts } from './door-counts.js';
import { ratioEstimate } from './estimates.js';
import { COLUMNS, type Confusion, type DoorMetrics, type Metrics, ROWS } from './metrics-schema.js';
import { pool, rates } from './rates.js';
import type { ReplicateRecord } from './replicate-record.js';
import { houseRates, roomRates } from './room-rates.js';
import type { Target } from './schema.js';
import type { RareKind } from './kinds-per-week.js';
import { ranking } from './ranking.js';
import { judgeTarget } from './targets.js';
import { type WhyRecord, whyMetrics } from './why.js';
import { NOBODY_ROW } from './truth.js';

export interface MetricsInput {
  /** Version of jambeam. */
  readonly jambeam: string;
  readonly scenario: string;
  readonly seed: string;
  /** Length of each replicate's clock. */
  readonly hours: number;
  /** Names, the headline's logic first. */
  readonly logics: readonly string[];
  readonly ledgers: readonly string[];
  readonly doors: readonly {
    readonly name: string;
    readonly mix: readonly MixEntry[];
    readonly beams: readonly string[];
    /** Extra visits of its rare kinds, with the first logic. */
    readonly rare?: readonly RareKind[];
  }[];
  readonly rooms: readonly string[];
  /** In order of their numbers. */
  readonly replicates: readonly ReplicateRecord[];
  readonly targets: readonly Target[];
  /** The replicates that were looked at closely, in order of their numbers. */
  readonly why?: readonly WhyRecord[];
  /** Per replicate, `[door][logic]`: wrong visits and tallies of nobody. */
  readonly wrong?: readonly WhyRecord['all'][];
}

/** All numbers of a run, with intervals over its replicates. Pure: the same records give the same bytes. */
export function buildMetrics(input: MetricsInput): Metrics {
  const { logics, ledgers, replicates, hours } = input;
  const judged: Omit<Metrics, 'targets' | 'why'> = {
    format: 1,
    jambeam: input.jambeam,
    scenario: input.scenario,
    seed: input.seed,
    replicates: replicates.length,
    hours,
    house: {
      logic: logics[0]!,
      ...rates(
        replicates.map(({ doors }) => pool(doors.map((door) => door.logics[0]!))),
        hours,
      ),
    },
    doors: input.doors.flatMap((_, door) => logics.map((_name, logic) => doorMetrics(input, door, logic))),
    ranking: ranking(
      logics,
      input.doors.map(({ name }) => name),
      replicates.map(({ doors }) => doors),
    ),
    rooms: input.rooms.flatMap((room, r) =>
      logics.flatMap((logic, l) =>
        ledgers.map((ledger, g) => ({
          room,
          logic,
          ledger,
          ...roomRates(replicates.map(({ rooms }) => rooms[r]![l]![g]!)),
        })),
      ),
    ),
    houses: logics.flatMap((logic, l) =>
      // Without rooms there is nothing that could be right or wrong.
      (input.rooms.length === 0 ? [] : ledgers).map((ledger, g) => ({
        logic,
        ledger,
        ...houseRates(
          replicates.map(({ houses }) => houses[l]![g]!),
          replicates.map(({ rooms }) => rooms.map((room) => room[l]![g]!)),
        ),
      })),
    ),
  };
  const why = whyMetrics(
    logics,
    input.doors.map(({ name }) => name),
    input.why ?? [],
    input.wrong ?? [],
    hours,
  );
  return { ...judged, why, targets: input.targets.map((target) => judgeTarget(judged, target)) };
}

function doorMetrics(input: MetricsInput, d: number, l: number): DoorMetrics {
  const { name, mix, beams, rare = [] } = input.doors[d]!;
  const records = input.replicates.map(({ doors }) => doors[d]!);
  const counts = records.map(({ logics }) => logics[l]!);
  const crossings = counts.map(({ total }) => total.crossings);
  return {
    door: name,
    logic: input.logics[l]!,
    ...rates(counts, input.hours),
    // Rare kinds are looked at more closely under the headline's logic only.
    by_kind: byKind(mix, counts, input.hours, l === 0 ? rare : []),
    by_stature: byStature(counts),
    by_assumed_share: byAssumedShare(mix, counts),
    breaks_per_crossing: beams.map((beam, b) => ({
      beam,
      estimate: ratioEstimate(
        records.map(({ breaks }) => breaks[b]!),
        crossings,
        { nothing: 'no crossings' },
      ),
    })),
    unmet_parties: records.reduce((sum, record) => sum + record.unmet_parties, 0),
    confusion: confusion(counts),
  };
}

function confusion(replicates: readonly DoorCounts[]): Confusion {
  const counts = ROWS.map((_, row) =>
    COLUMNS.map((column, c) =>
      row === NOBODY_ROW && column === 'nothing'
        ? null
        : replicates.reduce((sum, door) => sum + door.confusion[row * COLUMNS.length + c]!, 0),
    ),
  );
  return { rows: [...ROWS], columns: [...COLUMNS], counts };
}
