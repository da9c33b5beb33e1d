/** The shortest way through a house: by its plan where it has one, and not through the rain. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { OUTSIDE } from '../../../src/agents/outside.js';
import { ROOM_WAY } from '../../../src/agents/figures/household.js';
import { type RouteDoor, Routes } from '../../../src/agents/household/route.js';

const door = (from: number, to: number, x?: number, y = 0): RouteDoor =>
  x === undefined ? { from, to } : { from, to, at_m: { x, y } };

describe('a hall (0) with a kitchen (1), a living room (2) and a garden door', () => {
  // 0: front door, 1: hall–kitchen, 2: hall–living, 3: kitchen–outside, 4: living–outside
  const routes = new Routes(3, [door(OUTSIDE, 0), door(0, 1), door(0, 2), door(1, OUTSIDE), door(OUTSIDE, 2)]);

  test('from the kitchen to the living room one goes through the hall, not through the garden', () => {
    expect(routes.way(1, 2)).toEqual([1, 2]);
    expect(routes.way(2, 1)).toEqual([2, 1]);
  });

  test('out of the kitchen by its own door, and in again', () => {
    expect(routes.way(1, OUTSIDE)).toEqual([3]);
    expect(routes.way(OUTSIDE, 1)).toEqual([3]);
    expect(routes.way(0, OUTSIDE)).toEqual([0]);
  });

  test('nobody goes anywhere to stay where they are', () => {
    for (const room of [0, 1, 2, OUTSIDE]) expect(routes.way(room, room)).toEqual([]);
  });
});

test('an annexe that has no other door is reached through the open air', () => {
  const routes = new Routes(2, [door(OUTSIDE, 0), door(OUTSIDE, 1)]);
  expect(routes.way(0, 1)).toEqual([0, 1]);
});

test('a room without a door is not reached', () => {
  expect(new Routes(2, [door(OUTSIDE, 0)]).way(0, 1)).toBeNull();
});

test('two doors nearby are shorter than one at the far end of a long room', () => {
  // From 0 to 2: by way of 1 (doors side by side) and 3, or by way of 4 whose doors are 30 m apart.
  const routes = new Routes(5, [door(0, 1, 0), door(1, 3, 1), door(3, 2, 2), door(0, 4, 0, 1), door(4, 2, 0, 31)]);
  expect(routes.way(0, 2)).toEqual([0, 1, 2]);
  expect(routes.between_m(3, 4)).toBe(30);
});

test('where the plan says nothing a room is an ordinary one', () => {
  expect(new Routes(2, [door(0, 1), door(1, 0)]).between_m(0, 1)).toBe(ROOM_WAY.value);
});

test('over random houses: a way is a chain of doors from start to goal that visits no room twice', () => {
  const plans = fc.integer({ min: 1, max: 8 }).chain((rooms) =>
    fc.record({
      rooms: fc.constant(rooms),
      sides: fc.array(fc.tuple(fc.integer({ min: -1, max: rooms - 1 }), fc.integer({ min: -1, max: rooms - 1 })), {
        maxLength: 12,
      }),
    }),
  );
  fc.assert(
    fc.property(plans, ({ rooms, sides }) => {
      const doors = sides.filter(([a, b]) => a !== b).map(([a, b]) => door(a, b));
      const routes = new Routes(rooms, doors);
      const all = [OUTSIDE, ...Array.from({ length: rooms }, (_, i) => i)];
      for (const from of all)
        for (const to of all) {
          const way = routes.way(from, to);
          // There and back again are both possible or neither.
          expect(routes.way(to, from) === null).toBe(way === null);
          let here = from;
          const been = new Set([from]);
          for (const d of way ?? []) {
            const { from: a, to: b } = doors[d]!;
            expect([a, b]).toContain(here);
            here = a === here ? b : a;
            expect(been.has(here)).toBe(false);
            been.add(here);
          }
          if (way !== null) expect(here).toBe(to);
        }
    }),
    { seed: 11, numRuns: 150 },
  );
});
