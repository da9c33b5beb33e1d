/** Ways along walls: against another algorithm, and what any distance must be. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { HousePlan, PlanRoom } from '../../src/geometry/house-plan.js';
import { straight_m } from '../../src/geometry/house-plan.js';
import { type Link, shortestWays, wayTo } from '../../src/geometry/shortest-way.js';
import { wallWays } from '../../src/geometry/wall-ways.js';

describe('the shortest way through a network', () => {
  /** R. W. Floyd, Algorithm 97: Shortest path, Comm. ACM 5(6):345, 1962: all pairs by three loops, no queue. */
  function floyd(places: number, links: readonly Link[]): number[][] {
    const all = Array.from({ length: places }, (_, i) =>
      Array.from({ length: places }, (__, k) => (i === k ? 0 : Infinity)),
    );
    for (const { a, b, length_m } of links) {
      all[a]![b] = Math.min(all[a]![b]!, length_m);
      all[b]![a] = Math.min(all[b]![a]!, length_m);
    }
    for (let k = 0; k < places; k++)
      for (let i = 0; i < places; i++)
        for (let j = 0; j < places; j++) all[i]![j] = Math.min(all[i]![j]!, all[i]![k]! + all[k]![j]!);
    return all;
  }
  const place = fc.nat({ max: 8 });
  const network = fc.array(fc.record({ a: place, b: place, length_m: fc.nat({ max: 20 }) }), { maxLength: 30 });

  test('is as long as Floyd’s, and its links add up to it', () => {
    fc.assert(
      fc.property(network, place, (links, start) => {
        const ways = shortestWays(9, links, start);
        expect(ways.length_m).toEqual(floyd(9, links)[start]);
        for (let to = 0; to < 9; to++) {
          const way = wayTo(ways, links, to);
          expect(way === null).toBe(ways.length_m[to] === Infinity);
          if (way) expect(way.reduce((sum, i) => sum + links[i]!.length_m, 0)).toBe(ways.length_m[to]);
        }
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});

/** A row of rooms of any widths with a door in each wall between them, and a second row above; invented. */
const houses = fc
  .record({
    widths: fc.array(fc.integer({ min: 15, max: 80 }), { minLength: 1, maxLength: 4 }),
    deep: fc.integer({ min: 15, max: 60 }),
    up: fc.boolean(),
  })
  .map(({ widths, deep, up }): HousePlan => {
    const rooms: PlanRoom[] = [];
    for (const storey of up ? [0, 1] : [0]) {
      let x = 0;
      for (const [i, w] of widths.entries()) {
        const high = { x: (x + w) / 10, y: deep / 10 };
        rooms.push({ name: `${storey}-${i}`, storey, low: { x: x / 10, y: 0 }, high });
        x += w;
      }
    }
    const between = rooms.flatMap((room, i) => {
      const next = rooms[i + 1];
      if (!next || next.storey !== room.storey) return [];
      const at = { x: room.high.x, y: room.high.y / 2 };
      return [
        {
          name: `d${i}`,
          from: room.name,
          to: next.name,
          at,
          facing_deg: 90,
          width_m: 0.8,
          height_m: 2,
          way: 'door' as const,
        },
      ];
    });
    const stairs = up
      ? [
          {
            name: 's',
            from: '0-0',
            to: '1-0',
            at: { x: 0, y: 0.7 },
            facing_deg: 270,
            width_m: 0.8,
            height_m: 2,
            way: 'stairs' as const,
          },
        ]
      : [];
    return { rooms, doors: [...between, ...stairs], storey_height_m: 2.7 };
  });

describe('ways along the walls of a house', () => {
  const spots = fc.array(
    fc.record({
      room: fc.nat({ max: 20 }),
      x: fc.double({ min: -1, max: 20, noNaN: true }),
      y: fc.double({ min: -1, max: 8, noNaN: true }),
    }),
    { minLength: 3, maxLength: 3 },
  );

  test.each([true, false])(
    'are a distance: the same back, no detour over a third place, never under the straight line (ceilings %s)',
    (ceilings) => {
      fc.assert(
        fc.property(houses, spots, (plan, chosen) => {
          const stops = chosen.map(({ room, x, y }) => ({
            room: plan.rooms[room % plan.rooms.length]!.name,
            spot: { x, y },
          }));
          const { places, links } = wallWays(plan, { run_m: () => 2.1, passing_m: () => 0.2, ceilings, stops });
          const far = [0, 1, 2].map((i) => shortestWays(places.length, links, i).length_m);
          for (let i = 0; i < 3; i++)
            for (let j = 0; j < 3; j++) {
              expect(far[i]![j]).toBeLessThan(Infinity);
              expect(far[i]![j]).toBeCloseTo(far[j]![i]!, 9);
              for (let k = 0; k < 3; k++) expect(far[i]![j]! + far[j]![k]!).toBeGreaterThan(far[i]![k]! - 1e-9);
              const [a, b] = [places[i]!, places[j]!];
              const up_m = (a.storey - b.storey) * plan.storey_height_m;
              const flat_m = straight_m(a, b);
              expect(far[i]![j]).toBeGreaterThan(Math.sqrt(flat_m * flat_m + up_m * up_m) - 1e-9);
            }
        }),
        { seed: 2, numRuns: 200 },
      );
    },
  );

  test('a way round a room of 4 m by 3 m is never longer than half its walls, 7 m, and corner to corner just that', () => {
    const plan: HousePlan = {
      rooms: [{ name: 'hall', storey: 0, low: { x: 0, y: 0 }, high: { x: 4, y: 3 } }],
      doors: [],
      storey_height_m: 2.7,
    };
    fc.assert(
      fc.property(spots, (chosen) => {
        const stops = [{ x: 0, y: 0 }, { x: 4, y: 3 }, ...chosen].map((spot) => ({ room: 'hall', spot }));
        const { places, links } = wallWays(plan, { run_m: () => 2, passing_m: () => 0, ceilings: true, stops });
        const far = shortestWays(places.length, links, 0).length_m;
        expect(far[1]).toBeCloseTo(7, 9);
        for (const length_m of far) expect(length_m).toBeLessThan(7 + 1e-9);
      }),
      { seed: 3, numRuns: 100 },
    );
  });
});
