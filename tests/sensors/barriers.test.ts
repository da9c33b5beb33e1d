/** Noise of light barriers against the rates they are given, and the light of one barrier in another's receiver. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rodBody } from '../../src/agents/body.js';
import { breaksOf } from '../../src/agents/motion/motion.js';
import { through } from '../../src/agents/motion/passage.js';
import { Stream } from '../../src/engine/stream.js';
import type { Shadow } from '../../src/sensors/door-sensors.js';
import type { Edge } from '../../src/sensors/edge.js';
import { Barriers } from '../../src/sensors/light-barrier/barriers.js';
import type { MountedBarrier } from '../../src/sensors/mounted.js';
import { pathsOf } from '../../src/sensors/light-barrier/paths.js';
import type { LightBarrier } from '../../src/sensors/schema.js';
import { lightBarrierSchema } from '../../src/sensors/light-barrier/schema.js';

const SECOND = 1e6;
const HOUR = 3600 * SECOND;

function barrier(change: Partial<LightBarrier> = {}): LightBarrier {
  return { ...lightBarrierSchema.parse({ kind: 'light-barrier' }), response_ms: 0, ...change };
}
function pair(
  sensor: LightBarrier,
  spacing_m = 0.1,
  width_m = 0.9,
  emitters: readonly ('left' | 'right')[] = ['left', 'left'],
): MountedBarrier[] {
  return ['A', 'B'].map((name, i) => {
    const y = (i - 0.5) * spacing_m;
    const left = emitters[i] === 'left';
    const mount = left ? ('left-jamb' as const) : ('right-jamb' as const);
    const [from, to] = left ? [0, width_m] : [width_m, 0];
    return { name, index: i, mount, sensor, line: { from: { x: from, y, z: 0.9 }, to: { x: to, y, z: 0.9 } } };
  });
}

/** 4,000 bodies, one a second, each breaking both beams for 0.2 s, B 0.05 s after A. */
const BODIES = 4000;
function shadowsOf(body: number): Shadow {
  const at = body * SECOND;
  return {
    visit: body + 1,
    body,
    breaks: [
      [at, at + 200_000],
      [at + 50_000, at + 250_000],
    ],
  };
}
function edgesOf(sensor: LightBarrier, bodies: (n: number) => number = (n) => n): Edge[] {
  const barriers = new Barriers(pair(sensor), Stream.root('barriers'));
  const edges: Edge[] = [];
  for (let n = 0; n < BODIES; n++) {
    const shadow = shadowsOf(n);
    edges.push(...barriers.edgesUntil(n * SECOND));
    barriers.episode([{ ...shadow, body: bodies(n) }]);
  }
  edges.push(...barriers.edgesUntil(BODIES * SECOND));
  return edges;
}
const breaksOn = (edges: readonly Edge[], beam: number) =>
  edges.filter((edge) => edge.beam === beam && edge.level === 1);

/** Four standard errors of a share: chance fails one such check in 16,000, and the seed is fixed. */
function shareIs(found: number, of: number, expected: number): void {
  expect(Math.abs(found / of - expected)).toBeLessThan(4 * Math.sqrt((expected * (1 - expected)) / of));
}

describe('noise', () => {
  test('without noise every break is reported, to the microsecond', () => {
    const edges = edgesOf(barrier());
    expect(edges.slice(0, 4).map(({ time_us, beam, level }) => [time_us, beam, level])).toEqual([
      [0, 0, 1],
      [50_000, 1, 1],
      [200_000, 0, 0],
      [250_000, 1, 0],
    ]);
    expect(edges).toHaveLength(4 * BODIES);
  });

  test('spurious breaks come at their rate, evenly, and last as long as stated', () => {
    const barriers = new Barriers(pair(barrier({ spurious_per_hour: 30, spurious_ms: 25 })), Stream.root('spurious'));
    const edges = barriers.edgesUntil(200 * HOUR);
    for (const beam of [0, 1]) {
      const starts = breaksOn(edges, beam).map((edge) => edge.time_us);
      // Poisson with mean 6000 (two that overlap, one in 10,000, are one).
      expect(Math.abs(starts.length - 6000)).toBeLessThan(4 * Math.sqrt(6000));
      const firstHalf = starts.filter((time) => time < 100 * HOUR).length;
      shareIs(firstHalf, starts.length, 0.5);
      // Gaps are exponential: e^-1 of them are longer than the mean of two minutes.
      shareIs(starts.filter((time, i) => time - (starts[i - 1] ?? 0) > HOUR / 30).length, starts.length, Math.exp(-1));
      const ends = edges.filter((edge) => edge.beam === beam && edge.level === 0).map((edge) => edge.time_us);
      const lengths = ends.map((end, i) => end - (starts[i] as number));
      expect(lengths.filter((length) => Math.abs(length - 25_000) > 1).length).toBeLessThan(5);
    }
    // The two beams' own: no common instants.
    const a = new Set(breaksOn(edges, 0).map((edge) => edge.time_us));
    expect(breaksOn(edges, 1).filter((edge) => a.has(edge.time_us)).length).toBeLessThan(2);
  });

  test('the missed share of breaks goes unreported, by beam', () => {
    const edges = edgesOf(barrier({ missed_share: 0.2 }));
    const missed = [0, 1].map((beam) => {
      const seen = new Set(breaksOn(edges, beam).map((edge) => Math.floor(edge.time_us / SECOND)));
      shareIs(BODIES - seen.size, BODIES, 0.2);
      return Array.from({ length: BODIES }, (_, n) => !seen.has(n));
    });
    // A break missed by A says nothing of B: 0.2² are missed by both.
    shareIs(missed[0]!.filter((is, n) => is && missed[1]![n]).length, BODIES, 0.04);
    expect(edgesOf(barrier({ missed_share: 1 }))).toEqual([]);
  });

  test('shiny clothing hides its share of bodies from a reflector, always the same ones, and nobody from a through-beam', () => {
    const shiny = barrier({ layout: 'reflector', shiny_share: 0.3 });
    const once = breaksOn(edgesOf(shiny), 0).map((edge) => Math.floor(edge.time_us / SECOND));
    shareIs(BODIES - once.length, BODIES, 0.3);
    // 100 bodies that come 40 times each: all of a body's visits are seen, or none.
    const visits = new Map<number, number>();
    for (const edge of breaksOn(
      edgesOf(shiny, (n) => n % 100),
      0,
    )) {
      const body = Math.floor(edge.time_us / SECOND) % 100;
      visits.set(body, (visits.get(body) ?? 0) + 1);
    }
    expect(new Set(visits.values())).toEqual(new Set([BODIES / 100]));
    expect(visits.size).toBeLessThan(100);
    expect(breaksOn(edgesOf(barrier({ shiny_share: 0.3 })), 0)).toHaveLength(BODIES);
  });

  test('no spurious break begins after the clock, and those of the clock keep their rate', () => {
    const clock_us = 36 * SECOND;
    let breaks = 0;
    for (let n = 0; n < 400; n++) {
      const sensor = barrier({ spurious_per_hour: 1000, spurious_ms: 1 });
      const barriers = new Barriers(pair(sensor), Stream.root('clock').nth(n), clock_us);
      const found = breaksOn(barriers.edgesUntil(clock_us + 30 * SECOND), 0);
      expect(Math.max(...found.map((edge) => edge.time_us))).toBeLessThan(clock_us + 1);
      breaks += found.length;
    }
    // 400 × 36 s at 1000 an hour: 4000 of a Poisson count, four standard deviations.
    expect(Math.abs(breaks - 4000)).toBeLessThan(4 * Math.sqrt(4000));
  });

  test('whether a break is missed does not depend on who else is in the doorway', () => {
    // Two breaks of visit 1, and somebody else's in between that joins no other.
    const first = { visit: 1, body: 1, breaks: [[1000, 2000, 5000, 6000], []] };
    const other = { visit: 2, body: 2, breaks: [[3000, 4000], []] };
    const startsOf = (shadows: Shadow[], seed: number): number[] => {
      const barriers = new Barriers(pair(barrier({ missed_share: 0.5 })), Stream.root(`missed ${seed}`));
      barriers.episode(shadows);
      return breaksOn(barriers.edgesUntil(SECOND), 0).map((edge) => edge.time_us);
    };
    for (let seed = 0; seed < 50; seed++) {
      const together = startsOf([first, other], seed);
      expect(together.filter((time) => time !== 3000)).toEqual(startsOf([first], seed));
    }
  });

  test('more noise of one sort leaves the other sorts as they were', () => {
    const missing = (sensor: LightBarrier) =>
      breaksOn(edgesOf(sensor), 0)
        .filter((edge) => edge.time_us % SECOND === 0)
        .map((edge) => edge.time_us);
    const plain = missing(barrier({ missed_share: 0.2 }));
    const spurious = new Set(missing(barrier({ missed_share: 0.2, spurious_per_hour: 100 })));
    // A spurious break may run into a true one (20 ms of each second at 100 an hour): no more than that differs.
    expect(plain.filter((time) => !spurious.has(time)).length).toBeLessThan(10);
    expect(spurious.size).toBeLessThanOrEqual(plain.length);
  });
});

describe('one emitter in the other receiver', () => {
  const geometry = fc.record({
    spacing: fc.double({ min: 0.01, max: 0.5, noNaN: true }),
    width: fc.double({ min: 0.4, max: 3, noNaN: true }),
    angle: fc.double({ min: 0, max: 30, noNaN: true }),
  });

  test('level and parallel: it arrives if the half-angle is at least atan(spacing / width)', () => {
    fc.assert(
      fc.property(geometry, ({ spacing, width, angle }) => {
        const across = (Math.atan2(spacing, width) * 180) / Math.PI;
        fc.pre(Math.abs(across - angle) > 1e-9);
        const paths = pathsOf(pair(barrier({ separation: 'none', half_angle_deg: angle }), spacing, width));
        expect(paths.length).toBe(across < angle ? 4 : 2);
      }),
      { seed: 2, numRuns: 500 },
    );
  });

  test.each([
    ['alternating', barrier({ separation: 'alternate', half_angle_deg: 30 }), ['left', 'left']],
    ['on carriers', barrier({ separation: 'carriers', half_angle_deg: 30 }), ['left', 'left']],
    ['with reflectors', barrier({ layout: 'reflector', separation: 'none', half_angle_deg: 30 }), ['left', 'left']],
    ['with emitters in opposite jambs', barrier({ separation: 'none', half_angle_deg: 30 }), ['left', 'right']],
  ] as const)('%s there is no such light', (_how, sensor, emitters) => {
    expect(pathsOf(pair(sensor, 0.05, 0.9, emitters))).toHaveLength(2);
  });

  // Light from B's emitter at (0, +s/2) to A's receiver at (W, −s/2) passes y = s/2 − s·x/W where the rod passes, at an
  // angle θ = atan(s/W) to the beam: the rod covers it while it is within (d/2)/cos θ. A is dark while both are covered.
  test('a receiver is dark only while the other emitter is covered too', () => {
    const [s, W, d, v] = [0.06, 0.9, 0.2, 1];
    const beams = pair(barrier({ separation: 'none', half_angle_deg: 5 }), s, W);
    const barriers = new Barriers(beams, Stream.root('dazzled'));
    expect(barriers.paths).toHaveLength(4);
    const rod = rodBody('rod', 1, d, 1.8, v, 1);
    const x = 0.3;
    const { motion, leave_s } = through(rod, { width_m: W, zone_m: 1 }, false, Stream.root('x'), x);
    const breaks = barriers.paths.map((path) => {
      const out: number[] = [];
      breaksOf(rod, motion, path.line, path.clearance, out);
      return out.map((time) => time * SECOND);
    });
    barriers.episode([{ visit: 1, body: 1, breaks }]);
    const edges = barriers.edgesUntil(leave_s * SECOND);
    const cos = W / Math.sqrt(W * W + s * s);
    const dark = ([-1, 1] as const).map((side) => {
      const own = (side * s) / 2;
      const cross = side * (s * (x / W) - s / 2);
      const from = Math.max(own - d / 2, cross - d / 2 / cos);
      const to = Math.min(own + d / 2, cross + d / 2 / cos);
      return [(1 + from) / v, (1 + to) / v] as const;
    });
    const seen = [0, 1].map((beam) => edges.filter((edge) => edge.beam === beam).map((edge) => edge.time_us / SECOND));
    seen.forEach((times, beam) => times.forEach((time, i) => expect(time).toBeCloseTo(dark[beam]![i]!, 4)));
    expect(seen.map((times) => times.length)).toEqual([2, 2]);
  });
});
