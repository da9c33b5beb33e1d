/** Polled inputs: what is lost between two reads, and what is sure to be seen. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { Inputs } from '../../src/sensors/inputs.js';
import type { Edge } from '../../src/sensors/edge.js';

/** A stream whose first draw is `u`: the phase of the polling. */
const phased = (u: number) => ({ at: () => u }) as unknown as Stream;

type Report = readonly [time_us: number, mask: number];

function reports(edges: readonly Edge[], poll_ms: number | undefined, phase = 0.5): Report[] {
  const seen: Report[] = [];
  const controller = poll_ms === undefined ? { name: 'c' } : { name: 'c', poll_ms };
  const inputs = new Inputs(controller, phased(phase), (time, mask) => seen.push([time, mask]));
  for (const edge of edges) inputs.edge(edge);
  inputs.settle(Number.MAX_SAFE_INTEGER / 4);
  return seen;
}

/** A rod of depth d at speed v past beams s apart, microseconds and metres. */
function rodEdges(d_m: number, s_m: number, v_mps: number, start_us: number): Edge[] {
  const at = (m: number) => start_us + Math.round((m / v_mps) * 1e6);
  return [
    { time_us: at(0), beam: 0, level: 1 },
    { time_us: at(s_m), beam: 1, level: 1 },
    { time_us: at(d_m), beam: 0, level: 0 },
    { time_us: at(d_m + s_m), beam: 1, level: 0 },
  ] as Edge[];
}

describe('polling', () => {
  const A_ALONE = 0b01;
  // State 10 lasts s/v; a poll falls into every stretch that is as long as the interval, whatever the phase.
  test('state 10 is sure to be seen if the interval is at most s/v, and only then', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        fc.integer({ min: 20, max: 250 }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        fc.integer({ min: 0, max: 1_000_000 }),
        fc.double({ min: 0.3, max: 0.999, noNaN: true }),
        (v, s_mm, phase, start, part) => {
          const s = s_mm / 1000;
          const state_us = Math.round((s / v) * 1e6);
          const edges = rodEdges(s + 0.3, s, v, start);
          const surely_ms = (state_us * part) / 1000;
          expect(reports(edges, surely_ms, phase).some(([, mask]) => mask === A_ALONE)).toBe(true);
          // Polled just before A breaks and next after B breaks: A is never seen alone. The phase is set to do that.
          const late_us = state_us + 2000;
          const unlucky = (((edges[0] as Edge).time_us - 1) % late_us) / late_us + 0.25 / late_us;
          expect(reports(edges, late_us / 1000, unlucky).some(([, mask]) => mask === A_ALONE)).toBe(false);
        },
      ),
      { seed: 3, numRuns: 500 },
    );
  });

  test('how often it is missed: 1 − s/(vP) over all phases', () => {
    const [v, s, poll_ms] = [2, 0.1, 60];
    const n = 6000;
    let missed = 0;
    for (let k = 0; k < n; k++)
      if (!reports(rodEdges(0.4, s, v, 123_456), poll_ms, (k + 0.5) / n).some(([, mask]) => mask === A_ALONE)) missed++;
    expect(missed / n).toBeCloseTo(1 - (s / v) * (1000 / poll_ms), 3);
  });

  const edgesOf = fc
    .array(fc.tuple(fc.integer({ min: 0, max: 4000 }), fc.integer({ min: 0, max: 2 })), { maxLength: 40 })
    .map((steps) => {
      let time_us = 0;
      const level = [0, 0, 0];
      return steps.map(([gap, beam]) => {
        time_us += gap;
        level[beam] = 1 - (level[beam] as number);
        return { time_us, beam, level: level[beam] } as Edge;
      });
    });
  function maskAt(edges: readonly Edge[], time_us: number): number {
    let mask = 0;
    for (const edge of edges)
      if (edge.time_us <= time_us) mask = edge.level ? mask | (1 << edge.beam) : mask & ~(1 << edge.beam);
    return mask;
  }

  test('each read gives the levels of its own instant; changes and nothing else are reported', () => {
    fc.assert(
      fc.property(
        edgesOf,
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (edges, tenths, phase) => {
          const period = tenths * 100;
          const phase_us = Math.floor(phase * period);
          const expected: Report[] = [];
          const end = (edges.at(-1)?.time_us ?? 0) + 2 * period;
          for (let t = phase_us; t <= end; t += period) {
            const mask = maskAt(edges, t);
            if (mask !== (expected.at(-1)?.[1] ?? 0)) expected.push([t, mask]);
          }
          expect(reports(edges, period / 1000, phase)).toEqual(expected);
        },
      ),
      { seed: 5, numRuns: 1000 },
    );
  });

  test('wired to interrupts every instant with a change is reported, edges of one instant together', () => {
    fc.assert(
      fc.property(edgesOf, (edges) => {
        const expected: Report[] = [];
        for (const time of new Set(edges.map((edge) => edge.time_us))) {
          const mask = maskAt(edges, time);
          if (mask !== (expected.at(-1)?.[1] ?? 0)) expected.push([time, mask]);
        }
        expect(reports(edges, undefined)).toEqual(expected);
      }),
      { seed: 6, numRuns: 500 },
    );
  });

  test('the phase of the polling is chance, even over the interval', () => {
    const controller = { name: 'c', poll_ms: 10 };
    const first = Array.from({ length: 4000 }, (_, n) => {
      let at = 0;
      const inputs = new Inputs(controller, Stream.root('phases').nth(n), (time) => (at ||= time));
      inputs.edge({ time_us: 50_000, beam: 0, level: 1 });
      inputs.settle(1e9);
      return at - 50_000;
    });
    expect(Math.min(...first)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...first)).toBeLessThan(10_000);
    // Mean of an even distribution over 10 ms is 5 ms; 4 standard errors are 10/√12/√4000·4 = 0.18 ms.
    expect(Math.abs(first.reduce((a, b) => a + b) / first.length - 5000)).toBeLessThan(183);
  });
});

describe('readings of rangers', () => {
  test('one at the instant of an edge comes with it; one without an edge is an input of its own', () => {
    const seen: unknown[] = [];
    const inputs = new Inputs({}, phased(0), (...told) => seen.push(told));
    inputs.reading(1, 10, 900_000);
    inputs.reading(1, 40, 500_000);
    inputs.known({ time_us: 40, beam: 1, level: 1 });
    inputs.reading(0, 55, -1);
    inputs.settle(100);
    expect(seen).toEqual([
      [10, 0, 0, [null, 900_000]],
      [40, 2, 0, [null, 500_000]],
      [55, 2, 2, [null, 500_000]],
    ]);
  });
});
