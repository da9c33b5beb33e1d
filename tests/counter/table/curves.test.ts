/** Arrows of a diagram: from edge to edge, bent to their right, their labels where there is room. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Box,
  type Curve,
  curveBetween,
  directionAt,
  overlap,
  placeLabel,
  pointAt,
} from '../../../src/counter/table/curves.js';
import type { Point } from '../../../src/counter/table/layout.js';

const shares = Array.from({ length: 101 }, (_, i) => i / 100);
const apart = (p: Point, q: Point): number => Math.hypot(p.x - q.x, p.y - q.y);
/** How far a point lies outside a box, along the axes; negative inside. */
const outside = (box: Box, p: Point): number =>
  Math.max(Math.abs(p.x - box.x) - box.width / 2, Math.abs(p.y - box.y) - box.height / 2);

const side = fc.integer({ min: 20, max: 120 });
/** Boxes far enough from each other for an arrow between them. */
const boxes = fc
  .record({
    width: side,
    height: side,
    angle: fc.double({ min: 0, max: 6.28, noNaN: true }),
    way: fc.integer({ min: 220, max: 600 }),
  })
  .map(({ width, height, angle, way }): [Box, Box] => [
    { x: 300, y: 200, width, height },
    { x: 300 + way * Math.cos(angle), y: 200 + way * Math.sin(angle), width: height, height: width },
  ]);

describe('an arrow', () => {
  test('begins and ends four pixels outside its boxes, and touches neither on its way', () => {
    fc.assert(
      fc.property(boxes, ([a, b]) => {
        const curve = curveBetween(a, b);
        expect(outside(a, curve.from)).toBeCloseTo(4, 3);
        expect(outside(b, curve.to)).toBeCloseTo(4, 3);
        for (const t of shares) {
          expect(outside(a, pointAt(curve, t))).toBeGreaterThan(3.99);
          expect(outside(b, pointAt(curve, t))).toBeGreaterThan(3.99);
        }
      }),
      { seed: 3 },
    );
  });

  test('is part of the bent line from centre to centre', () => {
    fc.assert(
      fc.property(boxes, ([a, b]) => {
        // Bent by 0.16 of its length to the arrow's own right: y points down.
        const [dx, dy] = [b.x - a.x, b.y - a.y];
        const control = { x: (a.x + b.x) / 2 - 0.16 * dy, y: (a.y + b.y) / 2 + 0.16 * dx };
        const whole: Curve = { from: a, control, to: b };
        const curve = curveBetween(a, b);
        const dense = Array.from({ length: 20_001 }, (_, i) => pointAt(whole, i / 20_000));
        for (const t of [0, 0.3, 0.5, 0.8, 1])
          expect(Math.min(...dense.map((p) => apart(p, pointAt(curve, t))))).toBeLessThan(0.05);
      }),
      { seed: 4, numRuns: 20 },
    );
  });

  test('and the one that comes back bends to the other side', () => {
    const [a, b]: Box[] = [
      { x: 0, y: 0, width: 40, height: 40 },
      { x: 300, y: 0, width: 40, height: 40 },
    ];
    const there = pointAt(curveBetween(a!, b!), 0.5);
    const back = pointAt(curveBetween(b!, a!), 0.5);
    expect(there.y).toBeCloseTo(24, 6);
    expect(back.y).toBeCloseTo(-24, 6);
  });

  test('points where it goes: the direction is the slope of its points, a unit long', () => {
    fc.assert(
      fc.property(boxes, ([a, b]) => {
        const curve = curveBetween(a, b);
        for (const t of [0.1, 0.5, 0.9]) {
          const [before, after] = [pointAt(curve, t - 1e-4), pointAt(curve, t + 1e-4)];
          const way = apart(before, after);
          const { x, y } = directionAt(curve, t);
          expect(Math.hypot(x, y)).toBeCloseTo(1, 9);
          expect([x, y].map((one) => one.toFixed(4))).toEqual(
            [(after.x - before.x) / way, (after.y - before.y) / way].map((one) => one.toFixed(4)),
          );
        }
      }),
      { seed: 5 },
    );
  });
});

test('what two boxes share is counted pixel by pixel', () => {
  const whole = fc.integer({ min: 0, max: 12 });
  const small = fc.record({
    x: whole,
    y: whole,
    width: fc.constantFrom(2, 4, 6, 8),
    height: fc.constantFrom(2, 4, 6, 8),
  });
  const holds = (box: Box, p: Point): boolean => outside(box, p) < 0;
  fc.assert(
    fc.property(small, small, (a, b) => {
      let pixels = 0;
      for (let x = -6; x < 20; x++)
        for (let y = -6; y < 20; y++) {
          const middle = { x: x + 0.5, y: y + 0.5 };
          if (holds(a, middle) && holds(b, middle)) pixels++;
        }
      expect(overlap(a, b)).toBe(pixels);
    }),
    { seed: 6 },
  );
});

describe('a label', () => {
  const [a, b]: Box[] = [
    { x: 0, y: 0, width: 60, height: 30 },
    { x: 400, y: 0, width: 60, height: 30 },
  ];
  const curve = curveBetween(a!, b!);

  test('stands beside the middle of its arrow, on the side that it bends to, and clear of the line', () => {
    const label = placeLabel(curve, 50, 14, [], [curve]);
    const middle = pointAt(curve, 0.5);
    expect(label).toMatchObject({ width: 50, height: 14 });
    expect(label.x).toBeCloseTo(middle.x, 6);
    expect(label.y).toBeCloseTo(middle.y + 7 + 3, 6);
    for (const t of shares) expect(outside(label, pointAt(curve, t))).toBeGreaterThan(0);
  });

  test('makes way for what is there: along the arrow first, to its other side where there is no room at all', () => {
    const middle = pointAt(curve, 0.5);
    const there: Box = { x: middle.x, y: middle.y + 12, width: 20, height: 16 };
    const beside = placeLabel(curve, 20, 14, [there], [curve]);
    expect(overlap(beside, there)).toBe(0);
    expect(beside.y).toBeGreaterThan(pointAt(curve, 0.5).y - 14);

    const wall: Box = { x: 200, y: middle.y + 60, width: 800, height: 110 };
    const beyond = placeLabel(curve, 20, 14, [wall], [curve]);
    expect(overlap(beyond, wall)).toBe(0);
    expect(beyond.y).toBeLessThan(middle.y);
  });

  test('and for other arrows', () => {
    const across: Curve = { from: { x: 200, y: 200 }, control: { x: 200, y: 100 }, to: { x: 200, y: -100 } };
    const alone = placeLabel(curve, 30, 14, [], [curve]);
    const crossed = placeLabel(curve, 30, 14, [], [curve, across]);
    const inside = (box: Box) => shares.filter((t) => outside(box, pointAt(across, t)) < 0).length;
    expect(inside(alone)).toBeGreaterThan(0);
    expect(inside(crossed)).toBe(0);
  });
});
