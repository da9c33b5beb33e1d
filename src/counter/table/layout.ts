/**
 * Where the states of a diagram stand: the start in the middle, for every walk begins and ends there, the others on an
 * ellipse round it, so placed that arrows are short, first steps stand high, and the refuge, if any, at the bottom.
 */
import { PI, cos, sin } from '../../engine/arithmetic.js';
import type { Arrow } from './arrows.js';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Beyond this many states the places are those of the file: the search would take long and help little. */
const MAX_SEARCHED = 30;

/** Centre of each state by index, round the origin; y points down. */
export function placeStates(
  states: number,
  start: number,
  refuge: number | null,
  arrows: readonly Arrow[],
  radii: Point,
): Point[] {
  const ring = Array.from({ length: states }, (_, i) => i).filter((i) => i !== start);
  const spots = ringSpots(ring.length, refuge !== null, radii);
  const order = refuge === null ? ring : [refuge, ...ring.filter((i) => i !== refuge)];
  const depth = depths(states, start, arrows);
  const cost = (): number => costOf(order, spots, arrows, depth, radii);
  const first = refuge === null ? 0 : 1;
  if (ring.length <= MAX_SEARCHED) {
    let best = cost();
    for (let better = true; better; ) {
      better = false;
      for (let i = first; i < order.length; i++) {
        for (let j = i + 1; j < order.length; j++) {
          swap(order, i, j);
          const now = cost();
          if (now < best - 1e-9) {
            best = now;
            better = true;
          } else swap(order, i, j);
        }
      }
    }
  }
  const centres: Point[] = Array.from({ length: states }, () => ({ x: 0, y: 0 }));
  for (const [slot, state] of order.entries()) centres[state] = spots[slot] as Point;
  return centres;
}

/** Spots on the ellipse; with a refuge the first is at the bottom, then clockwise from the upper right. */
function ringSpots(n: number, withRefuge: boolean, radii: Point): Point[] {
  const at = (angle: number): Point => ({ x: radii.x * cos(angle), y: radii.y * sin(angle) });
  if (!withRefuge) return Array.from({ length: n }, (_, i) => at(-PI / 2 + ((i + 0.5) * 2 * PI) / n));
  // Counted from the bottom, clockwise would begin on the left: start at the top instead and leave the bottom out.
  const bottom = PI / 2;
  const others = Array.from({ length: n - 1 }, (_, i) => at(bottom - ((n - 1 - i) * 2 * PI) / n));
  const firstRight = others.findIndex((spot) => spot.x > 1e-6 && spot.y < 0);
  const turn = Math.max(0, firstRight);
  return [at(bottom), ...others.slice(turn), ...others.slice(0, turn)];
}

function costOf(
  order: readonly number[],
  spots: readonly Point[],
  arrows: readonly Arrow[],
  depth: readonly number[],
  radii: Point,
): number {
  const where = new Map(order.map((state, slot) => [state, spots[slot] as Point]));
  let cost = 0;
  for (const { from, to } of arrows) {
    const a = where.get(from);
    const b = where.get(to);
    if (a && b) cost += length(a, b) + throughMiddle(a, b, radii);
  }
  // Far smaller than any arrow: first steps high, states written first to the right.
  for (const [rank, state] of [...where.keys()].toSorted((a, b) => a - b).entries()) {
    const spot = where.get(state) as Point;
    cost += -0.01 * (depth[state] ?? 0) * spot.y + 0.001 * rank * spot.x;
  }
  return cost;
}

function length(a: Point, b: Point): number {
  return Math.sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

/** What an arrow costs that would pass under the box in the middle: it is worth a detour of the whole ring. */
function throughMiddle(a: Point, b: Point, radii: Point): number {
  const p = { x: a.x / radii.x, y: a.y / radii.y };
  const q = { x: b.x / radii.x, y: b.y / radii.y };
  const fromMiddle = Math.abs(p.x * q.y - p.y * q.x) / (length(p, q) || 1);
  return fromMiddle < 0.4 ? (0.4 - fromMiddle) * 10 * radii.x : 0;
}

/** Fewest arrows from the start; 0 for what can't be reached. */
function depths(states: number, start: number, arrows: readonly Arrow[]): number[] {
  const depth = Array.from({ length: states }, () => -1);
  depth[start] = 0;
  let front = [start];
  for (let d = 1; front.length > 0; d++) {
    const next = new Set<number>();
    for (const { from, to } of arrows) if (front.includes(from) && depth[to] === -1) next.add(to);
    for (const state of next) depth[state] = d;
    front = [...next];
  }
  return depth.map((d) => Math.max(0, d));
}

function swap(list: number[], i: number, j: number): void {
  const kept = list[i] as number;
  list[i] = list[j] as number;
  list[j] = kept;
}
