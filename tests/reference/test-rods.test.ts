/**
 * Test rods through the whole pipeline, against the theory of counters.
 *
 * A beam is broken while at least one rod is in it. Rods that arrive as a Poisson stream of rate n, one way, passing
 * through each other, each breaking the beam for a time of mean τ, make it a paralyzable counter: a break begins only
 * when no rod that came before is still in the beam, so breaks per rod are exp(−nτ), and the beam is broken for the
 * share 1 − exp(−nτ) of the time; both depend on the mean of τ alone, not on its distribution (M/G/∞).
 * Source: G. F. Knoll, Radiation Detection and Measurement, ch. 4 (paralyzable model); W. Feller, "On probability
 * problems in the theory of counters", 1948; L. Takács on M/G/∞. Chapter and year from memory.
 *
 * τ is the mean of (rod + 2e)/v: a beam of diameter b breaks when the wanted share of its disc is covered, at a distance
 * e past the rod's edge (0 at half), by the handbook area of a circular segment, ½R²(α − sin α).
 *
 * What begins before the slowest rod from the clock's start has left, or after the last arrival, isn't looked at. Each
 * figure must lie in its own 99.9 % interval (Student's t over 30 replicates). 60 such checks: with a free seed one run
 * in 17 would fail one of them by chance; the seed is fixed, so the outcome is always the same.
 */
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { tQuantile } from '../../src/engine/distribution-functions.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { plainRun } from '../simulate/plain-run.js';
import { howMany } from '../how-many.js';

const REPLICATES = 30;
/** Rods that set out in one replicate, about. */
const RODS = howMany(800, 8000);
const T_999 = tQuantile(0.9995, REPLICATES - 1);

interface Rod {
  readonly diameter_m: number;
  readonly speed_mps: number;
  readonly speed_to_mps?: number;
  readonly share: number;
}
interface Door {
  readonly rods: readonly Rod[];
  readonly per_hour: number;
  readonly spacing_m: number;
  readonly beam_diameter_m?: number;
  readonly covered_share?: number;
  readonly response_ms?: number;
}
interface Seen {
  readonly rods: number;
  /** By beam. */
  readonly breaks: readonly number[];
  /** Share of the time, by beam. */
  readonly broken: readonly number[];
  readonly tallies: number;
}

/** One entry per replicate, of the time between warming up and the last arrival. */
function run(door: Door): Seen[] {
  const { rods, per_hour, spacing_m, beam_diameter_m = 0.006, covered_share = 0.5, response_ms = 0 } = door;
  const hours = RODS / per_hour;
  const { design, issues } = parseScenario(
    `format: 1
name: rods
seed: rods
replicates: ${REPLICATES}
hours: ${hours}
rooms: [{ name: hall }]
controllers: [{ name: main }]
walkers:
${rods
  .map(
    (rod, i) =>
      `  rod${i}: { kind: test-rod, diameter_m: ${rod.diameter_m}, speed_mps: ${rod.speed_mps}${
        rod.speed_to_mps ? `, speed_to_mps: ${rod.speed_to_mps}` : ''
      } }`,
  )
  .join('\n')}
sensors:
  barrier: { kind: light-barrier, beam_diameter_m: ${beam_diameter_m}, covered_share: ${covered_share}, response_ms: ${response_ms} }
logics: [{ use: four-level, timeout_ms: 2000000 }]
doors:
  - name: door
    from: outside
    to: hall
    width_m: 0.9
    zone_m: 1.2
    pair: { sensor: barrier, height_m: 0.9, spacing_m: ${spacing_m} }
    traffic:
      arrivals_per_hour: ${per_hour}
      one_way: true
      mix: [${rods.map((rod, i) => `{ who: rod${i}, kind: through, share: ${rod.share} }`).join(', ')}]
`,
    'rods.yaml',
  );
  expect(issues).toEqual([]);
  const end_us = hours * 3.6e9;
  const slowest = Math.min(...rods.map((rod) => rod.speed_mps));
  // From one end of the zone to the other, the longest break included.
  const start_us = (2.4e6 + 1e6) / slowest;
  expect(start_us).toBeLessThan(0.2 * end_us);
  const inside = (time_us: number) => time_us >= start_us && time_us < end_us;
  const seen = Array.from({ length: REPLICATES }, () => ({ rods: 0, breaks: [0, 0], broken: [0, 0], tallies: 0 }));
  const since: (number | null)[][] = Array.from({ length: REPLICATES }, () => [null, null]);
  plainRun(design!, {
    passage: (replicate, visit) => {
      if (inside(visit.enter_us)) seen[replicate - 1]!.rods++;
    },
    tally: (replicate, { time_us, direction }) => {
      expect(direction).toBe('forward');
      if (inside(time_us)) seen[replicate - 1]!.tallies++;
    },
    edge: (replicate, { beam, time_us, level }) => {
      const one = seen[replicate - 1]!;
      const open = since[replicate - 1]!;
      if (level === 1) {
        if (inside(time_us)) one.breaks[beam]!++;
        open[beam] = time_us;
      } else {
        const [from, to] = [Math.max(start_us, open[beam]!), Math.min(end_us, time_us)];
        if (to > from) one.broken[beam]! += (to - from) / (end_us - start_us);
        open[beam] = null;
      }
    },
  });
  expect(since.flat().every((open) => open === null)).toBe(true);
  return seen;
}

/** Whether the expected value lies in the 99.9 % interval of a mean over replicates. */
function agrees(values: readonly number[], expected: number): void {
  const half = (T_999 * sampleStandardDeviation([...values])) / Math.sqrt(values.length);
  const middle = mean([...values]);
  // An interval too wide to tell anything would be no test.
  expect(half).toBeLessThan(0.4 * Math.min(expected, 1 - expected));
  expect(expected).toBeGreaterThan(middle - half);
  expect(expected).toBeLessThan(middle + half);
}

/**
 * Distance past a wide rod's edge at which `share` of a disc of diameter b is covered: half of b times minus the place x
 * (in radii) at which the segment beyond x has that share; by halving on ½(α − sin α)/π, α = 2 acos x.
 */
function pastTheEdge(diameter_m: number, share: number): number {
  let [low, high] = [-1, 1];
  for (let i = 0; i < 60; i++) {
    const x = (low + high) / 2;
    const angle = 2 * Math.acos(x);
    if ((angle - Math.sin(angle)) / (2 * Math.PI) > share) low = x;
    else high = x;
  }
  return (low * diameter_m) / 2;
}

/** Mean of (rod + 2e)/v; speeds are even between two ends, so the mean of 1/v is ln(v1/v0)/(v1 − v0). */
function meanTime(rods: readonly Rod[], e_m: number): number {
  return rods.reduce((sum, { diameter_m, speed_mps: v0, speed_to_mps: v1, share }) => {
    const slowness = v1 === undefined ? 1 / v0 : Math.log(v1 / v0) / (v1 - v0);
    return sum + share * (diameter_m + 2 * e_m) * slowness;
  }, 0);
}

const ONE_SPEED: readonly Rod[] = [{ diameter_m: 0.3, speed_mps: 1.2, share: 1 }];
const MANY_SPEEDS: readonly Rod[] = [{ diameter_m: 0.25, speed_mps: 0.5, speed_to_mps: 2.5, share: 1 }];
const MIXED: readonly Rod[] = [
  { diameter_m: 0.1, speed_mps: 0.8, share: 0.5 },
  { diameter_m: 0.4, speed_mps: 0.4, speed_to_mps: 1.6, share: 0.3 },
  { diameter_m: 0.2, speed_mps: 3, share: 0.2 },
];

describe('breaks per rod and broken share of a beam', () => {
  for (const [what, rods] of [
    ['one speed', ONE_SPEED],
    ['any speed', MANY_SPEEDS],
    ['several rods at several speeds', MIXED],
  ] as const) {
    test.each([0.01, 0.1, 0.3, 1])(`${what}, nτ = %f: exp(−nτ) on each beam`, (load) => {
      const tau = meanTime(rods, 0);
      const seen = run({ rods, per_hour: (3600 * load) / tau, spacing_m: 0.1 });
      for (const beam of [0, 1]) {
        agrees(
          ratios(seen, (one) => one.breaks[beam]!),
          Math.exp(-load),
        );
        if (load < 1)
          agrees(
            seen.map((one) => one.broken[beam]!),
            1 - Math.exp(-load),
          );
      }
    });
  }

  // A fat beam, so that e matters: 20 mm. A fifth covered is reached 5 mm before the middle, four fifths 5 mm after it.
  test.each([0.2, 0.8])('a share of %f of the beam to cover', (covered_share) => {
    const rods = [{ diameter_m: 0.05, speed_mps: 1, share: 1 }];
    const e = pastTheEdge(0.02, covered_share);
    expect(Math.abs(e)).toBeGreaterThan(0.004);
    const tau = meanTime(rods, e);
    const seen = run({ rods, per_hour: (3600 * 0.5) / tau, spacing_m: 0.03, beam_diameter_m: 0.02, covered_share });
    agrees(
      ratios(seen, (one) => one.breaks[0]!),
      Math.exp(-0.5),
    );
    agrees(
      seen.map((one) => one.broken[0]!),
      1 - Math.exp(-0.5),
    );
  });

  // Gaps shorter than the response time aren't seen: a rod prolongs its shadow by r.
  test.each([20, 100])('a response time of %f ms bridges gaps: exp(−n(τ + r))', (response_ms) => {
    const tau = meanTime(MANY_SPEEDS, 0);
    const n = 0.5 / tau;
    const seen = run({ rods: MANY_SPEEDS, per_hour: 3600 * n, spacing_m: 0.1, response_ms });
    // Shortest shadow 0.25 m / 2.5 m/s = 100 ms: long enough for the response to see all of them.
    for (const beam of [0, 1])
      agrees(
        ratios(seen, (one) => one.breaks[beam]!),
        Math.exp(-n * (tau + response_ms / 1000)),
      );
  });
});

describe('the four-level walk', () => {
  // At equal speeds B repeats A after s/v; both are clear again only when no rod came for (d + 2e + s)/v.
  test.each([
    { d: 0.3, s: 0.1, v: 1.2, load: 0.05, share: 0.5 },
    { d: 0.3, s: 0.1, v: 1.2, load: 0.4, share: 0.5 },
    { d: 0.3, s: 0.25, v: 0.8, load: 1, share: 0.5 },
    { d: 0.12, s: 0.1, v: 2, load: 0.3, share: 0.2 },
  ])('rods of $d m, spacing $s m, $v m/s, nτ = $load, share $share: one tally from both clear to both clear', (one) => {
    const { d, s, v, load, share } = one;
    const e = pastTheEdge(0.02, share);
    const tau = (d + 2 * e) / v;
    const n = load / tau;
    const rods = [{ diameter_m: d, speed_mps: v, share: 1 }];
    const seen = run({ rods, per_hour: 3600 * n, spacing_m: s, beam_diameter_m: 0.02, covered_share: share });
    agrees(
      ratios(seen, ({ tallies }) => tallies),
      Math.exp((-n * (d + 2 * e + s)) / v),
    );
  });
});

/** Something per rod, by replicate. */
function ratios(seen: readonly Seen[], of: (one: Seen) => number): number[] {
  return seen.map((one) => of(one) / one.rods);
}
