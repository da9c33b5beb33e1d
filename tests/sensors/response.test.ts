/** A barrier's response against a filter that looks at every microsecond. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Edge } from '../../src/sensors/edge.js';
import { Response } from '../../src/sensors/light-barrier/response.js';

/** Breaks as [start, end) microseconds in order of start; they may touch and overlap. */
const breaks = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 1, max: 30 })), { maxLength: 12 })
  .map((pairs) => {
    let at = 0;
    return pairs.map(([gap, length]) => {
      at += gap;
      return [at, at + length] as const;
    });
  });

/** Output edges of a filter that follows its input once the input has differed for `response` microseconds. */
function bruteForce(input: readonly (readonly [number, number])[], response: number): [number, number][] {
  const end = Math.max(0, ...input.map(([, to]) => to)) + 200;
  const edges: [number, number][] = [];
  let out = 0;
  let differing = 0;
  for (let t = 0; t < end; t++) {
    const now = input.some(([from, to]) => t >= from && t < to) ? 1 : 0;
    // Microsecond t has passed when t + 1 begins.
    differing = now === out ? 0 : differing + 1;
    if (differing > 0 && differing >= response) {
      out = now;
      edges.push([response === 0 ? t : t + 1, out]);
      differing = 0;
    }
  }
  return edges;
}

/** Without response two breaks that touch may be parted for no time at all: inputs of one instant are one. */
function withoutInstants(edges: readonly Edge[]): [number, number][] {
  const kept: [number, number][] = [];
  for (const { time_us, level } of edges) {
    if (kept.at(-1)?.[0] === time_us) kept.pop();
    else kept.push([time_us, level]);
  }
  return kept;
}

test('a change is reported once it has lasted the response time, and that much later', () => {
  fc.assert(
    fc.property(breaks, fc.integer({ min: 0, max: 40 }), fc.integer({ min: 1, max: 50 }), (input, response, each) => {
      const edges: Edge[] = [];
      const out = new Response(response, 3, (edge) => edges.push(edge));
      // Time goes on between breaks: what is known up to now is settled now and then.
      let settled = 0;
      for (const [from, to] of input) {
        while (settled + each <= from) out.settle((settled += each));
        out.push(from, to);
      }
      out.settle(1e6);
      expect(withoutInstants(edges)).toEqual(bruteForce(input, response));
      expect(edges.every((edge) => edge.beam === 3)).toBe(true);
    }),
    { seed: 11, numRuns: 3000 },
  );
});

test('by hand: 5 ms of response to breaks of 4, 6 and 8 ms, the last two 3 ms apart', () => {
  const edges: Edge[] = [];
  const out = new Response(5000, 0, (edge) => edges.push(edge));
  out.push(0, 4000);
  out.push(10_000, 16_000);
  out.push(19_000, 27_000);
  out.settle(100_000);
  expect(edges).toEqual([
    { time_us: 15_000, beam: 0, level: 1 },
    { time_us: 32_000, beam: 0, level: 0 },
  ]);
});
