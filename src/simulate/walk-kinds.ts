/** The kinds of walk that test a door, each with its prediction. */
import { type MixKind, MIX_KINDS, isPet } from '../agents/schema.js';
import type { Stream } from '../engine/stream.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { DoorMetrics } from '../score/metrics-schema.js';
import type { PredictedShare } from '../score/walk-test/claim.js';
import { type ChosenKinds, byImportance, chooseKinds, type KindRate } from '../score/walk-test/choose-kinds.js';
import type { WalkKind } from '../score/walk-test/rows.js';
import { predictWalk } from './walk-prediction.js';
import { walkersKnown } from './walkers-known.js';

export interface PredictedKind extends WalkKind {
  readonly prediction: PredictedShare;
  /** What the run says of it. */
  readonly run: KindRate;
  /** Walks simulated alone; 0: bounded by what the run says. */
  readonly rests_on: number;
}

export interface PredictedKinds {
  readonly kinds: readonly PredictedKind[];
  readonly left_out: ChosenKinds['left_out'];
}

/** The kinds that matter most. @param metrics of the door under the logic */
export function predictedKinds(
  design: Design,
  door: DesignDoor,
  logic: Design['logics'][number],
  metrics: DoorMetrics,
  stream: Stream,
): PredictedKinds {
  const can = new Walkable(design, metrics);
  const { chosen, left_out } = chooseKinds(metrics.by_kind, (row) => can.walk(row));
  return { kinds: chosen.map((row) => predictedKind(design, door, logic, can, row, stream)), left_out };
}

/** The kinds that rows name, each once, the most important first; and rows of which the run predicts nothing. */
export function kindsNamed<Row extends { readonly who: string; readonly kind: string }>(
  design: Design,
  door: DesignDoor,
  logic: Design['logics'][number],
  metrics: DoorMetrics,
  stream: Stream,
  rows: readonly Row[],
): { readonly kinds: readonly PredictedKind[]; readonly unknown: readonly Row[] } {
  const can = new Walkable(design, metrics);
  const same = (row: KindRate) => (one: Row) => one.who === row.who && one.kind === row.kind;
  const known = metrics.by_kind.filter((row) => can.walk(row) && rows.some(same(row))).sort(byImportance);
  return {
    kinds: known.map((row) => predictedKind(design, door, logic, can, row, stream)),
    unknown: rows.filter((one) => !known.some((row) => same(row)(one))),
  };
}

/** What somebody can be asked to walk. */
class Walkable {
  /** Who leads a pet: whoever goes through most often. */
  readonly leader: KindRate | undefined;
  private readonly known: ReturnType<typeof walkersKnown>;

  constructor(design: Design, { by_kind }: DoorMetrics) {
    this.known = walkersKnown(design);
    this.leader = by_kind
      .filter((row) => row.kind === 'through' && this.asPerson(row))
      .sort((a, b) => b.visits - a.visits)[0];
  }

  walk(row: KindRate): boolean {
    return this.asPerson(row) || (row.kind === 'at-heel' && this.leader !== undefined);
  }

  private asPerson({ who, kind }: KindRate): boolean {
    const walker = this.known.get(who);
    return walker !== undefined && walker.kind !== 'robot-vacuum' && !isPet(walker) && isMix(kind);
  }
}

function predictedKind(
  design: Design,
  door: DesignDoor,
  logic: Design['logics'][number],
  can: Walkable,
  row: KindRate,
  stream: Stream,
): PredictedKind {
  if (row.kind === 'at-heel') return atHeel(row, predictedKind(design, door, logic, can, can.leader!, stream));
  const choice = { who: row.who, kind: row.kind as MixKind };
  const own = stream.child('prediction', row.who, row.kind);
  const { crosses, walks: rests_on, ...prediction } = predictWalk(design, door, logic, choice, own);
  return { ...choice, crosses, prediction, run: row, rests_on };
}

/**
 * Somebody with a pet at heel can't be sent through alone: the run bounds it. Wrong are walks in which the pet is
 * counted, up to twice each, or the person wrong; between half the pet's rate and both together.
 */
function atHeel(pet: KindRate, person: PredictedKind): PredictedKind {
  const { value, low, high } = pet.wrong_per_100_visits;
  const share = (x: number | null, missing: number) => Math.min(1, Math.max(0, (x ?? missing) / 100));
  const { prediction, crosses } = person;
  return {
    who: pet.who,
    kind: 'at-heel',
    crosses,
    prediction: {
      value: Math.min(1, share(value, 50) + prediction.value),
      low: share(low, 0) / 2,
      high: Math.min(1, share(high, 100) + prediction.high),
    },
    run: pet,
    rests_on: 0,
  };
}

function isMix(kind: string): kind is MixKind {
  return (MIX_KINDS as readonly string[]).includes(kind);
}
