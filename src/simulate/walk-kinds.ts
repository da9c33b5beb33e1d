/** The kinds of walk that test a door, each with its prediction. */
import { type MixKind, MIX_KINDS, isPet } from '../agents/schema.js';
import type { Stream } from '../engine/stream.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { DoorMetrics } from '../score/metrics-schema.js';
import type { PredictedShare } from '../score/walk-test/claim.js';
import type { KindRate } from '../score/metrics-schema.js';
import { type ChosenKinds, byImportance, chooseKinds } from '../score/walk-test/choose-kinds.js';
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
  const { chosen, left_out } = chooseKinds(can.rows, (row) => can.walk(row));
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
  const known = can.rows.filter((row) => can.walk(row) && rows.some(same(row))).sort(byImportance);
  return {
    kinds: known.map((row) => predictedKind(design, door, logic, can, row, stream)),
    unknown: rows.filter((one) => !known.some((row) => same(row)(one))),
  };
}

/** What somebody can be asked to walk. A walk with a pet at heel goes by the pet's name, whoever leads it. */
class Walkable {
  /** The row of whoever leads pets most often. */
  readonly leader: KindRate | undefined;
  /** All rows but those of who leads a pet: these are walked with the pet's. */
  readonly rows: readonly KindRate[];
  private readonly known: ReturnType<typeof walkersKnown>;

  constructor(design: Design, { by_kind }: DoorMetrics) {
    this.known = walkersKnown(design);
    const leading = by_kind.filter((row) => row.kind === 'at-heel' && this.isPerson(row));
    this.leader = [...leading].sort((a, b) => b.visits - a.visits)[0];
    this.rows = by_kind.filter((row) => !leading.includes(row));
  }

  walk(row: KindRate): boolean {
    return row.kind === 'at-heel' ? this.leader !== undefined : isMix(row.kind) && this.isPerson(row);
  }

  private isPerson({ who }: KindRate): boolean {
    const walker = this.known.get(who);
    return walker !== undefined && walker.kind !== 'robot-vacuum' && !isPet(walker);
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
  if (row.kind === 'at-heel') return atHeel(row, can.leader!);
  const choice = { who: row.who, kind: row.kind as MixKind };
  const own = stream.child('prediction', row.who, row.kind);
  const { crosses, walks: rests_on, ...prediction } = predictWalk(design, door, logic, choice, own);
  return { ...choice, crosses, prediction, run: row, rests_on };
}

/**
 * Somebody with a pet at heel can't be sent through alone: the run bounds it. A walk is wrong when either is counted
 * wrong, and each may make two wrong counts: so it is between half the larger rate and both rates together.
 */
function atHeel(pet: KindRate, person: KindRate): PredictedKind {
  const [a, b] = [pet.wrong_per_100_visits, person.wrong_per_100_visits];
  const share = (x: number) => Math.min(1, Math.max(0, x / 100));
  const low = share(Math.max(a.low ?? 0, b.low ?? 0) / 2);
  const high = share((a.high ?? 100) + (b.high ?? 100));
  const value = Math.min(high, Math.max(low, share((a.value ?? 100) + (b.value ?? 100))));
  const persons = Math.max(1, Math.round(person.person_crossings / person.visits));
  return {
    who: pet.who,
    kind: 'at-heel',
    crosses: { forward: { forward: persons, backward: 0 }, backward: { forward: 0, backward: persons } },
    prediction: { value, low, high },
    run: pet,
    rests_on: 0,
  };
}

function isMix(kind: string): kind is MixKind {
  return (MIX_KINDS as readonly string[]).includes(kind);
}
