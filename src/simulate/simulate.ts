/**
 * The way through, from a design to its metrics: who walks, what blocks which beam, what the electronics say of it,
 * what the logics make of that, and how it compares with the truth.
 *
 *     crowd ──▶ edges ──▶ sensors ──▶ logics ──▶ rooms and score ──▶ metrics, figures
 *
 * Each replicate (replicate.ts) is one crowd over one clock; each door's part of it is door-line.ts. Pure: no file, no
 * clock, no chance but the seed's; the same design gives the same bytes anywhere.
 */
import type { OutsideLogics } from '../counter/make-logic.js';
import type { Design } from '../scenario/schema.js';
import { clockHours } from '../engine/time.js';
import { WEEKDAYS } from '../agents/household/schema.js';
import type { RareKind } from '../score/kinds-per-week.js';
import { bands, driftBands } from '../score/drift-bands.js';
import type { ActivityRun, ClothingRun, Figures, RoomDriftBands, SurvivalCurve } from '../score/figures.js';
import { hourlyCounts, hoursCovered } from '../score/hourly.js';
import type { Picture } from '../score/pictures.js';
import { replicateSample } from '../score/replicate-sample.js';
import { survivalCurve } from '../score/room-rates.js';
import type { WhyRecord } from '../score/why.js';
import type { Metrics } from '../score/metrics-schema.js';
import { buildMetrics } from '../score/metrics.js';
import { calibrated } from './calibration.js';
import { ACTIVE_AGAIN, activityAsked, activityDesigns } from './activity-runs.js';
import { CLOTHED_AGAIN, clothingDesigns } from './clothing-runs.js';
import type { Outcome, Sinks } from './outcome.js';
import { mostTelling } from './picture/choose.js';
import { drawTelling } from './picture/look-closer.js';
import { clockOf } from './plan.js';
import { rareKinds } from './rare-kinds.js';
import type { ReplicateResult } from './replicate.js';
import { runReplicate } from './replicate.js';
import { silhouettes } from './silhouettes.js';
import { VERSION } from './version.js';
import { whyRecords } from './why/why.js';

/**
 * Simulates all replicates of a design.
 *
 * @param given the design, as parseScenario gives it; where likelihood ledgers need rates that it doesn't hold, they are learnt first
 * @param sinks where rows and progress go while it runs; nothing is kept of them here
 * @param outside gives the logics that are code of the user's own; without, a design that has any is refused
 * @example simulate(parseScenario(text, 'door.yaml').design!).metrics.house.wrong_per_100
 */
export function simulate(given: Design, sinks: Sinks = {}, outside?: OutsideLogics): Outcome {
  const design = calibrated(given, outside);
  const results: ReplicateResult[] = [];
  for (let number = 1; number <= design.replicates; number++) {
    const done = number - 1;
    const progress = (share: number): void => sinks.progress?.(done + share, design.replicates);
    results.push(runReplicate(design, number, sinks, { progress, outside }));
    sinks.progress?.(number, design.replicates);
  }
  const { metrics, figures, why } = assemble(design, results, { outside });
  const pictures = picturesToShow(design, results, why, outside);
  const clothing = clothingOf(design, results, outside);
  const activity = activityOf(design, results, outside);
  return { metrics, figures: { ...figures, ...(clothing && { clothing }), ...(activity && { activity }), pictures } };
}

export interface AssembleOptions {
  /** Whether rare kinds are looked at more closely; without, their numbers a week rest on what the run saw. */
  readonly closer?: boolean;
  /** Whether what went wrong is explained; as `closer` if left out. */
  readonly why?: boolean;
  readonly outside?: OutsideLogics | undefined;
}

/**
 * Metrics and figures of finished replicates, in order of their numbers, and the replicates that were looked at closely
 * to explain what went wrong.
 */
export function assemble(
  design: Design,
  results: readonly ReplicateResult[],
  { closer = true, why: asked = closer, outside }: AssembleOptions = {},
): Outcome & { readonly why: readonly WhyRecord[] } {
  const rare = rareKinds(
    design,
    (closer ? design.doors : []).map((_, d) => results.map(({ record }) => record.doors[d]!.logics[0]!)),
    outside,
  );
  const why = asked ? whyRecords(design, (replicate) => results[replicate - 1]!.wrong, outside) : [];
  return { metrics: metricsOf(design, results, { rare, why }), figures: figuresOf(design, results), why };
}

/** Pictures in a report. */
const PICTURES = 12;

function picturesToShow(
  design: Design,
  results: readonly ReplicateResult[],
  why: readonly WhyRecord[],
  outside: OutsideLogics | undefined,
): Picture[] {
  const telling = mostTelling(
    results.map(({ wrong }) => wrong),
    why,
    PICTURES,
  );
  return drawTelling(design, telling, outside);
}

/** The first replicates again, with clothes at the ends of what is assumed of them; null where no sensor minds. */
function clothingOf(
  design: Design,
  results: readonly ReplicateResult[],
  outside: OutsideLogics | undefined,
): ClothingRun[] | null {
  const ends = clothingDesigns(design);
  if (!ends) return null;
  const replicates = Math.min(CLOTHED_AGAIN, results.length);
  const again = (end: Design): ReplicateResult[] =>
    Array.from({ length: replicates }, (_, r) => runReplicate(end, r + 1, {}, { outside }));
  const run = (what: ClothingRun['what'], records: readonly ReplicateResult[]): ClothingRun => ({
    what,
    replicates,
    wrong_per_100: metricsOf(design, records).house.wrong_per_100,
  });
  return [
    run('least', again(ends.least)),
    run('as drawn', results.slice(0, replicates)),
    run('most', again(ends.most)),
  ];
}

/** The first replicates again, calmer and busier; null where that isn't asked for. */
function activityOf(
  design: Design,
  results: readonly ReplicateResult[],
  outside: OutsideLogics | undefined,
): ActivityRun[] | null {
  if (!activityAsked(design)) return null;
  const { half, double } = activityDesigns(design);
  const first = results.slice(0, ACTIVE_AGAIN);
  const again = (busy: Design): ReplicateResult[] => first.map((_, r) => runReplicate(busy, r + 1, {}, { outside }));
  const run = (what: ActivityRun['what'], records: readonly ReplicateResult[]): ActivityRun => {
    const { house, houses } = metricsOf({ ...design, targets: [] }, records);
    const [rooms] = houses;
    return {
      what,
      replicates: records.length,
      wrong_per_100: house.wrong_per_100,
      ...(rooms && { exact_share: rooms.exact_share, first_wrong_h: rooms.first_wrong_h }),
    };
  };
  return [run('half', again(half)), run('as assumed', first), run('double', again(double))];
}

/** `rare`: per door. `why`: the replicates that were looked at closely. */
function metricsOf(
  design: Design,
  results: readonly ReplicateResult[],
  {
    rare = [],
    why = [],
  }: { readonly rare?: readonly (readonly RareKind[])[]; readonly why?: readonly WhyRecord[] } = {},
): Metrics {
  return buildMetrics({
    jambeam: VERSION,
    scenario: design.name,
    seed: String(design.seed),
    hours: design.hours,
    logics: design.logics.map((logic) => logic.name),
    ledgers: design.ledgers.map((ledger) => ledger.name),
    doors: design.doors.map((door, d) => ({
      name: door.name,
      mix: door.traffic.mix,
      beams: door.beams.map((beam) => beam.name),
      rare: rare[d] ?? [],
    })),
    rooms: design.rooms.map((room) => room.name),
    replicates: results.map((result) => result.record),
    targets: design.targets,
    why,
    wrong: results.map(({ wrong }) => wrong.all),
  });
}

function figuresOf(design: Design, results: readonly ReplicateResult[]): Figures {
  const span_us = clockOf(design);
  return {
    format: 1,
    drift: design.doors.flatMap((door, d) =>
      design.logics.map((logic, l) =>
        driftBands(
          door.name,
          logic.name,
          span_us,
          results.map((result) => result.drift[d]?.[l] ?? []),
        ),
      ),
    ),
    room_drift: roomDrift(design, results),
    survival: survival(design, results),
    hourly: design.doors.map((door, d) =>
      hourlyCounts(
        door.name,
        hoursCovered(span_us, clockHours(design.starts_at), WEEKDAYS.indexOf(design.starts_on)),
        results.map((result) => result.hourly[d]!),
      ),
    ),
    rooms: results[0]?.traces ?? [],
    silhouettes: silhouettes(design),
    replicates: results.map(({ record }) => replicateSample(record, span_us)),
  };
}

/** With the first logic, the headline's. */
function roomDrift(design: Design, results: readonly ReplicateResult[]): RoomDriftBands[] {
  const logic = design.logics[0]!.name;
  return design.rooms.flatMap((room, r) =>
    design.ledgers.map((ledger, g) => ({
      room: room.name,
      logic,
      ledger: ledger.name,
      ...bands(
        clockOf(design),
        results.map((result) => result.room_drift[r]![g]!),
      ),
    })),
  );
}

function survival(design: Design, results: readonly ReplicateResult[]): SurvivalCurve[] {
  return design.rooms.flatMap((room, r) =>
    design.logics.flatMap((logic, l) =>
      design.ledgers.map((ledger, g) => ({
        room: room.name,
        logic: logic.name,
        ledger: ledger.name,
        ...survivalCurve(results.map(({ record }) => record.rooms[r]![l]![g]!)),
      })),
    ),
  );
}
