/** The height ladder: laws that hold on every rung, and the same counts made by hand. */
import { describe, expect, test } from 'vitest';
import type { Walker } from '../../src/agents/schema.js';
import { Stream } from '../../src/engine/stream.js';
import type { Design } from '../../src/scenario/schema.js';
import { axisPaths } from '../../src/sensors/axis-paths.js';
import { trueBreaks } from '../../src/simulate/body-parts.js';
import { type LadderOptions, heightLadder, rungs } from '../../src/simulate/ladder.js';
import { partiesAlone } from '../../src/simulate/parties.js';
import { mountedBeams } from '../../src/simulate/plan.js';
import { doorDesign } from './designs.js';

const ladderOf = (design: Design, options?: LadderOptions) => heightLadder(design, design.doors[0]!, options);
const ADULTS: Walker = { kind: 'people', ages_y: [18, 80], women_share: 0.5, with_infant: false };
const rod = (diameter_m: number): Walker => ({
  kind: 'test-rod',
  diameter_m,
  height_m: 1.8,
  speed_mps: 1,
  persons: 1,
});

describe('the rungs', () => {
  test('are twelve, rise from 0.10 m to 1.80 m, and the nearest is the design’s own height', () => {
    for (const own of [0.1, 0.33, 0.95, 1.234, 1.8, 1.95]) {
      const heights = rungs(2, own);
      expect(heights).toHaveLength(12);
      expect(heights).toEqual([...new Set(heights)].toSorted((a, b) => a - b));
      expect(heights).toContain(own);
    }
  });

  test('stay below a low lintel', () => {
    const heights = rungs(1.5, 0.9);
    expect(heights.at(-1)).toBe(1.5);
    expect(new Set(heights).size).toBe(12);
  });

  test('a row per rung, adult, child and test rod in each, the own height marked', () => {
    const rows = ladderOf(doorDesign({ height_m: 0.9 }), { crossings: 20 });
    expect(rows.filter((row) => row.own).map((row) => row.height_m)).toEqual([0.9]);
    for (const row of rows) {
      expect(row.cells.map((cell) => cell.who)).toEqual(['adult', 'child', 'test rod']);
      expect(row.cells.every((cell) => cell.crossings === 20)).toBe(true);
    }
  });
});

describe('test rods obey theory', () => {
  const right = { breaks_per_crossing: 1, missed_per_100: 0, wrong_per_100: 0 };
  const heights_m = [0.02, 0.1, 0.5, 0.9, 1.3, 1.6];

  test('a rod deeper than the spacing is always right, at every height below its top', () => {
    for (const logics of ['[four-level]', '[first-broken]', '[hold-off]'])
      for (const row of ladderOf(doorDesign({ logics }), { walkers: { rod: rod(0.3) }, heights_m, crossings: 40 }))
        expect(row.cells[0]).toMatchObject(right);
  });

  test('one shallower than the spacing is never counted by the four-level walk, and nothing else is said of it', () => {
    for (const row of ladderOf(doorDesign(), { walkers: { rod: rod(0.09) }, heights_m, crossings: 40 }))
      expect(row.cells[0]).toMatchObject({ breaks_per_crossing: 1, missed_per_100: 100, wrong_per_100: 100 });
  });

  test('above its top nothing is broken and everything missed', () => {
    const [row] = ladderOf(doorDesign(), { walkers: { rod: rod(0.3) }, heights_m: [1.81], crossings: 10 });
    expect(row!.cells[0]).toMatchObject({ breaks_per_crossing: 0, missed_per_100: 100 });
  });
});

// Common practice, no source: shins are seen one by one, a chest is one break, nothing of a child is above its head.
describe('people', () => {
  test('shin height sees about two breaks an adult, chest height one', () => {
    const rows = ladderOf(doorDesign(), { walkers: { adult: ADULTS }, heights_m: [0.15, 0.3, 1.1, 1.2] });
    const breaks = rows.map((row) => row.cells[0]!.breaks_per_crossing);
    expect(breaks[0]).toBeGreaterThan(1.7);
    expect(breaks[0]).toBeLessThan(2.2);
    expect(breaks[1]).toBeGreaterThan(1.55);
    expect(breaks[1]).toBeLessThan(2);
    expect(breaks[2]).toBeGreaterThan(0.98);
    expect(breaks[2]).toBeLessThan(1.02);
    expect(rows[3]!.cells[0]!.wrong_per_100).toBeLessThanOrEqual(2);
  });

  test('from 1.35 m on nothing is seen of a child of four', () => {
    const four: Walker = { kind: 'people', ages_y: [4, 5], women_share: 0.5, with_infant: false };
    for (const row of ladderOf(doorDesign(), { walkers: { four }, heights_m: [1.35, 1.5, 1.8] }))
      expect(row.cells[0]).toMatchObject({ breaks_per_crossing: 0, missed_per_100: 100 });
  });
});
describe('the same crowd counted by hand', () => {
  // Without response time, polling and noise, the exact breaks are what the logic is given. The walk is read here as
  // the sum of quarter turns of a quadrature pair: +4 from both-clear to both-clear is one forward, −4 one backward.
  test.each([0.15, 0.45, 0.8, 1.1, 1.6])('at %f m', (height_m) => {
    const design = doorDesign({ height_m });
    const door = design.doors[0]!;
    const crossings = 120;
    const [row] = ladderOf(design, { walkers: { adult: ADULTS }, heights_m: [height_m], crossings });

    const stream = Stream.root(String(design.seed)).child('ladder', 'front', 'crowd', 'adult');
    const choice = { who: 'adult', kind: 'through', forward_share: 0.5 } as const;
    const paths = axisPaths(mountedBeams(design, door));
    let breaks = 0;
    let missed = 0;
    let wrong = 0;
    for (const [arrival] of partiesAlone(door, {}, choice, crossings, stream)) {
      const perBeam = paths.map((path) => trueBreaks(arrival!, path));
      breaks += (perBeam[0]!.length + perBeam[1]!.length) / 4;
      const net = quarterTurns(perBeam[0]!, perBeam[1]!);
      const way = arrival!.visit.direction === 'forward' ? 1 : -1;
      const right = net.filter((turn) => turn === way).length;
      if (net.length === 0) missed++;
      wrong += net.length === 0 ? 1 : right > 0 ? net.length - 1 : net.length;
    }
    expect(row!.cells[0]!.breaks_per_crossing).toBeCloseTo(breaks / crossings, 12);
    expect(row!.cells[0]!.missed_per_100).toBeCloseTo((100 * missed) / crossings, 9);
    expect(row!.cells[0]!.wrong_per_100).toBeCloseTo((100 * wrong) / crossings, 9);
  });

  function quarterTurns(a: readonly number[], b: readonly number[]): number[] {
    const edges = [...a.map((t) => ({ t, beam: 0 })), ...b.map((t) => ({ t, beam: 1 }))].sort((x, y) => x.t - y.t);
    const turned: number[] = [];
    let [isA, isB, sum] = [0, 0, 0];
    for (const { beam } of edges) {
      // A rising before B, or falling before B falls, is a quarter turn forward.
      if (beam === 0) {
        isA = 1 - isA;
        sum += isA === 1 ? (isB === 0 ? 1 : -1) : isB === 1 ? 1 : -1;
      } else {
        isB = 1 - isB;
        sum += isB === 1 ? (isA === 1 ? 1 : -1) : isA === 1 ? -1 : 1;
      }
      if (isA + isB > 0) continue;
      if (Math.abs(sum) === 4) turned.push(sum / 4);
      sum = 0;
    }
    return turned;
  }
});

describe('common random numbers', () => {
  test('a rung does not depend on the others, nor on spurious breaks', () => {
    const design = doorDesign({ height_m: 0.95 });
    const alone = ladderOf(design, { heights_m: [0.95], crossings: 30 });
    const among = ladderOf(design, { crossings: 30 });
    expect(alone[0]).toEqual(among.find((row) => row.own));
    const noisy = doorDesign({
      height_m: 0.95,
      sensor: '{ kind: light-barrier, response_ms: 0, spurious_per_hour: 60 }',
    });
    expect(ladderOf(noisy, { crossings: 30 })).toEqual(among);
  });

  test('the seed changes it', () => {
    const design = doorDesign();
    expect(ladderOf({ ...design, seed: 2 }, { crossings: 30 })).not.toEqual(ladderOf(design, { crossings: 30 }));
  });
});

test('a pair polled too slowly misses a rod or not by the phase of its reads', () => {
  // Rod 0.30 m, beams 0.10 m apart, 1 m/s: A alone from 0 to 100 ms, both to 300 ms, B alone to 400 ms.
  const at = (poll_ms: number) =>
    ladderOf(doorDesign({ poll_ms }), { walkers: { rod: rod(0.3) }, heights_m: [1], crossings: 400 })[0]!.cells[0]!;
  expect(at(100).wrong_per_100).toBe(0);
  // Reads at φ, φ + 150 and φ + 300 ms: with φ up to 100 ms both states are seen, with φ from 100 to 150 ms neither.
  const share = 1 / 3;
  const standardError = 100 * Math.sqrt((share * (1 - share)) / 400);
  expect(Math.abs(at(150).missed_per_100 - 100 * share)).toBeLessThan(4 * standardError);
});
