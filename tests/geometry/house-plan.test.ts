/** Rooms, walls and door frames on a plan. */
import { expect, test } from 'vitest';
import { type PlanDoor, doorAxes, fromWall_m, inFrame, nearestOnWall, shared } from '../../src/geometry/house-plan.js';

const room = { name: 'hall', storey: 0, low: { x: 0, y: 0 }, high: { x: 4, y: 3 } };

test('the nearest wall, from within and from without', () => {
  expect(nearestOnWall(room, { x: 0.5, y: 1 })).toEqual({ x: 0, y: 1 });
  expect(nearestOnWall(room, { x: 3.9, y: 1 })).toEqual({ x: 4, y: 1 });
  expect(nearestOnWall(room, { x: 2, y: 2.7 })).toEqual({ x: 2, y: 3 });
  expect(nearestOnWall(room, { x: 2, y: -1 })).toEqual({ x: 2, y: 0 });
  // 3, 4, 5: beyond the corner the corner is nearest.
  expect(nearestOnWall(room, { x: 7, y: 7 })).toEqual({ x: 4, y: 3 });
  expect(fromWall_m(room, { x: 7, y: 7 })).toBe(5);
});

test('forward is clockwise from up, and left is to the left of it', () => {
  const compass = [
    [0, [0, 1], [-1, 0]],
    [90, [1, 0], [0, 1]],
    [180, [0, -1], [1, 0]],
    [-90, [-1, 0], [0, -1]],
  ] as const;
  for (const [deg, [fx, fy], [lx, ly]] of compass) {
    const { forward, left } = doorAxes(deg);
    expect([forward.x, forward.y, left.x, left.y].map((v) => v + 0)).toEqual([fx, fy, lx, ly]);
  }
  // sin 30° = 1/2.
  expect(doorAxes(30).forward.x).toBeCloseTo(0.5, 12);
  expect(doorAxes(30).left.y).toBeCloseTo(0.5, 12);
});

test('jambs of a door that faces right: the left one is the upper one', () => {
  const door: PlanDoor = {
    name: 'd',
    from: 'hall',
    to: null,
    at: { x: 4, y: 1.5 },
    facing_deg: 90,
    width_m: 0.8,
    height_m: 2,
    way: 'door',
  };
  expect(inFrame(door, 0)).toEqual({ x: 4, y: 1.9 });
  expect(inFrame(door, 0.8)).toEqual({ x: 4, y: 1.1 });
});

test('what two rooms share: side by side nothing along one axis', () => {
  const next = { ...room, low: { x: 4, y: 1 }, high: { x: 6, y: 5 } };
  expect(shared(room, next)).toEqual({ x: 0, y: 2 });
  expect(shared(room, { ...next, low: { x: 3, y: 1 } })).toEqual({ x: 1, y: 2 });
});
