/** Durations and lag: what it counts that order alone does not, and what defeats it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fourLevel } from '../../src/counter/four-level.js';
import { lagAware } from '../../src/counter/lag-aware.js';
import { type Instant, playInstants } from './helpers.js';

const lag = lagAware({ gap_ms: 250, least_lag_share: 0.1, alike_share: 0.4, timeout_ms: 10_000 });
const directions = (instants: readonly Instant[], logic = lag): string[] =>
  playInstants(logic, instants).map(([, direction]) => direction);

/** A rod of some depth at some speed past beams a spacing apart: when each beam breaks and clears. */
function rod(depth_m: number, spacing_m: number, speed_mps: number, start_us = 1_000_000): Instant[] {
  const at = (m: number): number => start_us + Math.round((m / speed_mps) * 1e6);
  const edges = [
    { time_us: at(0), bit: 1 },
    { time_us: at(depth_m), bit: 1 },
    { time_us: at(spacing_m), bit: 2 },
    { time_us: at(depth_m + spacing_m), bit: 2 },
  ].sort((a, b) => a.time_us - b.time_us);
  let mask = 0;
  return edges.map(({ time_us, bit }) => ({ time_us, mask: (mask ^= bit) }));
}

describe('a body that goes through', () => {
  // The lag is spacing over speed, the duration depth over speed: their ratio knows no speed.
  test('is counted at any speed, deeper than the spacing or not', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.8, noNaN: true }),
        fc.double({ min: 0.05, max: 0.2, noNaN: true }),
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        (depth, spacing, speed) => {
          fc.pre(spacing / depth > 0.11 && (spacing - depth) / speed < 0.24 && (depth + spacing) / speed < 9);
          expect(directions(rod(depth, spacing, speed))).toEqual(['forward']);
        },
      ),
      { seed: 2, numRuns: 500 },
    );
  });

  test('is counted where the four-level walk misses it: shallower than the spacing', () => {
    const shallow = rod(0.05, 0.12, 1);
    expect(directions(shallow)).toEqual(['forward']);
    expect(directions(shallow, fourLevel({ timeout_ms: 10_000 }) as never)).toEqual([]);
  });

  test('in pieces, as legs are, is one', () => {
    const legs = [...rod(0.12, 0.1, 1.2), ...rod(0.12, 0.1, 1.2, 1_300_000)];
    expect(directions(legs)).toEqual(['forward']);
  });

  test('is told a gap after it is gone', () => {
    const [first] = playInstants(lag, rod(0.3, 0.1, 1));
    expect(first).toEqual([1_000_000 + 400_000 + 250_000, 'forward']);
  });
});

describe('nobody is counted', () => {
  const at = (...steps: readonly [ms: number, mask: number][]): Instant[] =>
    steps.map(([ms, mask]) => ({ time_us: ms * 1000, mask }));

  test('for whoever turns back, at any depth', () => {
    expect(directions(at([0, 1], [300, 3], [500, 1], [800, 0]))).toEqual([]);
    expect(directions(at([0, 1], [400, 0]))).toEqual([]);
  });

  test('for a beam that is broken much longer than the other', () => {
    expect(directions(at([0, 1], [2000, 3], [2100, 2], [2200, 0]))).toEqual([]);
  });

  test('for whoever stays longer than the timeout, and the next one is counted again', () => {
    const late = rod(0.3, 0.1, 1, 40_000_000);
    expect(directions([...at([0, 1], [100, 3], [20_000, 2], [20_100, 0]), ...late])).toEqual(['forward']);
  });
});

test('two who follow within the gap are one: that defeats it', () => {
  expect(directions([...rod(0.3, 0.1, 1), ...rod(0.3, 0.1, 1, 1_600_000)])).toEqual(['forward']);
});
