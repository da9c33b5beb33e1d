/** Arrows of a diagram: a bent line from box to box, its head, and where its label finds room. */
import type { Point } from './layout.js';

/** A rectangle by its centre. */
export interface Box extends Point {
  readonly width: number;
  readonly height: number;
}

/** A quadratic curve, already cut at the boxes. */
export interface Curve {
  readonly from: Point;
  readonly control: Point;
  readonly to: Point;
}

/** How far an arrow bends to its own right, as a share of its length: an arrow and its return then part. */
const BEND = 0.16;
/** Free space between an arrow and the box it touches. */
const GAP = 4;

export function curveBetween(a: Box, b: Box): Curve {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const whole = { from: a, control: { x: (a.x + b.x) / 2 - BEND * dy, y: (a.y + b.y) / 2 + BEND * dx }, to: b };
  const leaves = crossing(whole, a, 0, 0.5);
  const arrives = crossing(whole, b, 1, 0.5);
  return cut(whole, leaves, arrives);
}

/** Point at share `t` of the curve. */
export function pointAt({ from, control, to }: Curve, t: number): Point {
  const u = 1 - t;
  return {
    x: u * u * from.x + 2 * u * t * control.x + t * t * to.x,
    y: u * u * from.y + 2 * u * t * control.y + t * t * to.y,
  };
}

/** Unit vector along the curve at share `t`. */
export function directionAt({ from, control, to }: Curve, t: number): Point {
  const x = (1 - t) * (control.x - from.x) + t * (to.x - control.x);
  const y = (1 - t) * (control.y - from.y) + t * (to.y - control.y);
  const length = Math.sqrt(x * x + y * y) || 1;
  return { x: x / length, y: y / length };
}

/** Where the curve passes the edge of `box`: `inside` is a share in it, `outside` one beyond it. */
function crossing(curve: Curve, box: Box, inside: number, outside: number): number {
  let a = inside;
  let b = outside;
  for (let i = 0; i < 30; i++) {
    const middle = (a + b) / 2;
    if (contains(box, pointAt(curve, middle), GAP)) a = middle;
    else b = middle;
  }
  return b;
}

/** The part of a curve from share `t0` to `t1` (de Casteljau). */
function cut(curve: Curve, t0: number, t1: number): Curve {
  const from = pointAt(curve, t0);
  const to = pointAt(curve, t1);
  const mix = (p: Point, q: Point, t: number): Point => ({ x: p.x + (q.x - p.x) * t, y: p.y + (q.y - p.y) * t });
  const control = mix(mix(curve.from, curve.control, t0), mix(curve.control, curve.to, t0), t1);
  return { from, control, to };
}

function contains(box: Box, p: Point, margin: number): boolean {
  return Math.abs(p.x - box.x) <= box.width / 2 + margin && Math.abs(p.y - box.y) <= box.height / 2 + margin;
}

/** The area that two boxes share. */
export function overlap(a: Box, b: Box): number {
  const x = shared(a.x, a.width, b.x, b.width);
  const y = shared(a.y, a.height, b.y, b.height);
  return x > 0 && y > 0 ? x * y : 0;
}

/** How much of a line two stretches of it share, each by its middle and length; negative: how far they are apart. */
function shared(a: number, lengthA: number, b: number, lengthB: number): number {
  return Math.min(a + lengthA / 2, b + lengthB / 2) - Math.max(a - lengthA / 2, b - lengthB / 2);
}

/** Beside the curve, on the side it bends to, where it covers least of what is there already. */
export function placeLabel(
  curve: Curve,
  width: number,
  height: number,
  taken: readonly Box[],
  curves: readonly Curve[],
): Box {
  let best: Box | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const t of [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74]) {
    const p = pointAt(curve, t);
    const along = directionAt(curve, t);
    for (const side of [1, -1]) {
      const nx = -along.y * side;
      const ny = along.x * side;
      // Far enough along the normal that the label's corner clears the line.
      const off = Math.abs(nx) * (width / 2) + Math.abs(ny) * (height / 2) + 3;
      const box = { x: p.x + nx * off, y: p.y + ny * off, width, height };
      let cost =
        taken.reduce((sum, other) => sum + overlap(box, other), 0) + (side === 1 ? 0 : 40) + Math.abs(t - 0.5) * 60;
      for (const other of curves) cost += 12 * pointsInside(box, other);
      if (cost < least) {
        least = cost;
        best = box;
      }
    }
  }
  return best as Box;
}

function pointsInside(box: Box, curve: Curve): number {
  let inside = 0;
  for (let i = 0; i <= 40; i++) if (contains(box, pointAt(curve, i / 40), 1)) inside++;
  return inside;
}
