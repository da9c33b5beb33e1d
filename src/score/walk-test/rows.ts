/**
 * The walks of a plan, one by one, in the order they are walked.
 *
 * The order is drawn, so that tired legs and a warm sensor fall on all kinds alike; but whoever went through one way
 * comes back the other, so that nobody has to be carried to the right side. How far to go before stopping, and how
 * long to stay, is spread as evenly as the prediction takes it to be.
 */
import { LINGER } from '../../agents/figures/manner.js';
import { LINGER_DEPTH, LINGER_RETURNS, TURN_BACK_DEPTH, TURN_BACK_PAUSE } from '../../agents/figures/stillness.js';
import type { PassageKind } from '../../agents/schema.js';
import type { Direction } from '../../counter/logic.js';
import { lognormal, uniform } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';

/** Persons, one way and the other. */
export interface BothWays {
  readonly forward: number;
  readonly backward: number;
}

/** One kind of walk, and what a walk of it truly is. */
export interface WalkKind {
  readonly who: string;
  readonly kind: PassageKind;
  /** Who goes through when it sets out that way. */
  readonly crosses: Readonly<Record<Direction, BothWays>>;
}

export interface WalkRow {
  /** From 1. */
  readonly number: number;
  readonly who: string;
  readonly kind: PassageKind;
  /** Which way it sets out. */
  readonly direction: Direction;
  /** What a right counter adds. */
  readonly expected: BothWays;
  /** Where to stop, metres beyond the middle of the doorway, before it where negative; null: don't stop. */
  readonly stop_m: number | null;
  /** How long to stand there, seconds. */
  readonly stay_s: number | null;
  /** Whether to go back to where one came from. */
  readonly back: boolean;
}

type Unnumbered = Omit<WalkRow, 'number'>;
const NOBODY: BothWays = { forward: 0, backward: 0 };

/** @param walks of each kind, even numbers */
export function walkRows(
  kinds: readonly { readonly kind: WalkKind; readonly walks: number }[],
  stream: Stream,
): WalkRow[] {
  const byWho = new Map<string, Unnumbered[]>();
  for (const { kind, walks } of kinds) {
    const rows = rowsOfKind(kind, walks, stream.child('kind', kind.who, kind.kind));
    byWho.set(kind.who, [...(byWho.get(kind.who) ?? []), ...rows]);
  }
  const queues = [...byWho].map(([who, rows]) => backAndForth(rows, stream.child('who', who)));
  return interleaved(queues, stream.child('turns')).map((row, i) => ({ number: i + 1, ...row }));
}

function rowsOfKind({ who, kind, crosses }: WalkKind, walks: number, stream: Stream): Unnumbered[] {
  const rows: Unnumbered[] = [];
  for (const [d, direction] of (['forward', 'backward'] as const).entries()) {
    const chance = stream.nth(d);
    const count = d === 0 ? Math.ceil(walks / 2) : Math.floor(walks / 2);
    // Each draw has its own order, so that deep is not always long.
    const [depths, stays, returns] = [0, 1, 2].map((n) => spread(count, chance.nth(n)));
    for (let i = 0; i < count; i++) {
      const manner = mannerOf(kind, depths![i]!, stays![i]!, returns![i]!);
      rows.push({ who, kind, direction, expected: manner.back ? NOBODY : crosses[direction], ...manner });
    }
  }
  return rows;
}

/** To the centimetre and the second: nobody stops more exactly. */
function mannerOf(kind: PassageKind, depth: number, stay: number, returns: number) {
  const stop = ({ low, high }: { low: number; high: number }) => Math.round(100 * uniform(depth, low, high)) / 100;
  if (kind === 'turn-back') {
    const { low, high } = TURN_BACK_PAUSE.value;
    return { stop_m: stop(TURN_BACK_DEPTH.value), stay_s: Math.round(uniform(stay, low, high)), back: true };
  }
  if (kind === 'linger') {
    const { median, sigma } = LINGER.value;
    const stay_s = Math.round(lognormal(stay, median, sigma));
    return { stop_m: stop(LINGER_DEPTH.value), stay_s, back: returns < LINGER_RETURNS.value };
  }
  return { stop_m: null, stay_s: null, back: kind === 'reach' };
}

/** The middles of `count` equal parts of 0 to 1, in an order that is drawn. */
function spread(count: number, chance: Stream): number[] {
  return shuffled(
    Array.from({ length: count }, (_, i) => (i + 0.5) / count),
    chance,
  );
}

/** Fisher and Yates. */
function shuffled<T>(items: readonly T[], chance: Stream): T[] {
  const all = [...items];
  for (let i = all.length - 1; i > 0; i--) {
    const j = Math.floor(chance.at(i) * (i + 1));
    [all[i], all[j]] = [all[j]!, all[i]!];
  }
  return all;
}

/** Rows of one walker in a drawn order in which each begins on the side where the one before has ended, as long as there are any. */
function backAndForth(rows: readonly Unnumbered[], chance: Stream): Unnumbered[] {
  const left = shuffled(rows, chance);
  const ordered: Unnumbered[] = [];
  let side: Direction = 'forward';
  while (left.length > 0) {
    const at = left.findIndex(({ direction }) => direction === side);
    const row = left.splice(Math.max(0, at), 1)[0]!;
    ordered.push(row);
    side = ended(row);
  }
  return ordered;
}

/** The way one faces the door from the side where a walk ends. */
function ended({ direction, back }: Unnumbered): Direction {
  return back ? direction : direction === 'forward' ? 'backward' : 'forward';
}

/** Several queues as one, each in its own order, whose turn it is drawn by how many still wait. */
function interleaved(queues: readonly Unnumbered[][], chance: Stream): Unnumbered[] {
  const all: Unnumbered[] = [];
  const total = queues.reduce((sum, queue) => sum + queue.length, 0);
  const next = queues.map(() => 0);
  for (let n = 0; n < total; n++) {
    let draw = chance.at(n) * (total - n);
    const turn = queues.findIndex((queue, q) => (draw -= queue.length - next[q]!) < 0);
    all.push(queues[turn]![next[turn]!++]!);
  }
  return all;
}
