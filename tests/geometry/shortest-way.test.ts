/** Shortest ways against Floyd and Warshall's (Floyd, Comm. ACM 5:345, 1962: algorithm 97), which looks at every place between any two. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Link, shortestWays, wayTo } from '../../src/geometry/shortest-way.js';

function floyd(places: number, links: readonly Link[]): number[][] {
  const d = Array.from({ length: places }, (_, i) =>
    Array.from({ length: places }, (_one, j) => (i === j ? 0 : Infinity)),
  );
  for (const { a, b, length_m } of links) d[a]![b] = d[b]![a] = Math.min(d[a]![b]!, length_m);
  for (let k = 0; k < places; k++)
    for (let i = 0; i < places; i++)
      for (let j = 0; j < places; j++) d[i]![j] = Math.min(d[i]![j]!, d[i]![k]! + d[k]![j]!);
  return d;
}

const network = fc.integer({ min: 1, max: 8 }).chain((places) => {
  const place = fc.integer({ min: 0, max: places - 1 });
  const link = fc.record({ a: place, b: place, length_m: fc.integer({ min: 0, max: 9 }) });
  return fc.record({ places: fc.constant(places), links: fc.array(link, { maxLength: 16 }), start: place });
});

test('every way is as short as can be, and its links lead there one after the other', () => {
  fc.assert(
    fc.property(network, ({ places, links, start }) => {
      const ways = shortestWays(places, links, start);
      expect(ways.length_m).toEqual(floyd(places, links)[start]);
      for (let place = 0; place < places; place++) {
        const way = wayTo(ways, links, place);
        if (ways.length_m[place] === Infinity) {
          expect(way).toBeNull();
          continue;
        }
        let here = start;
        let length = 0;
        for (const i of way!) {
          const { a, b, length_m } = links[i]!;
          expect([a, b]).toContain(here);
          here = a === here ? b : a;
          length += length_m;
        }
        expect(here).toBe(place);
        expect(length).toBe(ways.length_m[place]);
      }
    }),
    { seed: 5, numRuns: 500 },
  );
});
