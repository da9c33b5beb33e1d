/**
 * What beams at the heights of the ladder see of people.
 *
 * Common practice, no source: nobody has published breaks per passage by height. The bounds are wide ones around what a
 * separate trial model of walking gave, at 400 seeded passages each.
 */
import { mean } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import { PART } from '../../src/agents/gait/parts.js';
import { breaksOf } from '../../src/agents/motion/motion.js';
import type { Passage } from '../../src/agents/motion/passage.js';
import { through } from '../../src/agents/motion/passage.js';
import type { Walker } from '../../src/agents/schema.js';
import { drawBody } from '../../src/agents/walkers.js';
import { Stream } from '../../src/engine/stream.js';
import type { BeamLine } from '../../src/geometry/beam-line.js';
import { Limbs } from '../../src/geometry/limbs.js';

const root = Stream.root('heights');
const OPENING = { width_m: 0.9, zone_m: 1.2 };
const N = 400;

interface Walk {
  readonly body: Body;
  readonly passage: Passage;
}

/** 400 passages of people of an age at a home's pace, half each way. */
function walks(name: string, ages_y: [number, number]): Walk[] {
  const walker: Walker = { kind: 'people', ages_y, women_share: 0.5, with_infant: false };
  const stream = root.child(name);
  return Array.from({ length: N }, (_, n) => {
    const body = drawBody(name, walker, n, OPENING, 0.7, stream.nth(n));
    return { body, passage: through(body, OPENING, n % 2 === 0, stream.nth(n).nth(1)) };
  });
}

function beam(height_m: number, at_m = 0): BeamLine {
  return { from: { x: 0, y: at_m, z: height_m }, to: { x: OPENING.width_m, y: at_m, z: height_m } };
}
const TOUCH = () => 0;
function breaks({ body, passage }: Walk, line: BeamLine): number[] {
  const out: number[] = [];
  breaksOf(body, passage.motion, line, TOUCH, out);
  return out;
}
function counts(all: readonly Walk[], height_m: number): number[] {
  return all.map((walk) => breaks(walk, beam(height_m)).length / 2);
}

/** The same person without arms: what is left when arms don't swing out of the trunk's shadow. */
function stillArms({ body, passage }: Walk): Walk {
  const arms: readonly number[] = [PART.upperArmR, PART.forearmR, PART.upperArmL, PART.forearmL];
  return { body: { ...body, limbs: Limbs.of(body.limbs.list().filter((limb) => !arms.includes(limb.part))) }, passage };
}

const adults = walks('adult', [20, 65]);

describe('an adult alone', () => {
  test('shin height sees two legs: two breaks, now and then three, never four', () => {
    const low = new Map([0.1, 0.15, 0.2, 0.3, 0.4].map((height) => [height, counts(adults, height)]));
    const means = (height: number) => mean(low.get(height) as number[]);
    between(means(0.1), 1.8, 2.4);
    between(means(0.15), 1.7, 2.2);
    for (const height of [0.2, 0.3, 0.4]) {
      between(means(height), 1.55, 2.0);
      expect(share(low.get(height) as number[], (n) => n === 2)).toBeGreaterThan(0.6);
    }
    for (const each of low.values()) expect(Math.max(...each)).toBeLessThan(4);
  });

  test('legs at 0.15 m whip through in under 80 ms or stand in the beam for over 160 ms', () => {
    const durations = adults.flatMap((walk) => lengths(breaks(walk, beam(0.15))));
    expect(share(durations, (s) => s > 0.08 && s < 0.16)).toBeLessThan(0.1);
    expect(share(durations, (s) => s <= 0.08)).toBeGreaterThan(0.5);
    expect(share(durations, (s) => s >= 0.16)).toBeGreaterThan(0.1);
  });

  test('hip height sees arms too: against the same people with still arms', () => {
    const still = adults.map(stillArms);
    for (const height of [0.75, 0.8]) between(mean(counts(adults, height)) - mean(counts(still, height)), 0.1, 0.45);
    between(mean(counts(adults, 1)) - mean(counts(still, 1)), -1e-9, 0.02);
    expect(Math.max(...counts(still, 0.8))).toBe(1);
  });

  test('chest height sees one break, from 0.60 to 0.75 of the stature', () => {
    for (const walk of adults)
      for (let of = 0.6; of <= 0.751; of += 0.025) expect(breaks(walk, beam(of * walk.body.stature_m))).toHaveLength(2);
  });

  test('head height misses the shorter ones, and nobody is seen above their head', () => {
    for (const height of [1.5, 1.6, 1.7, 1.8, 1.9]) {
      const seen = adults.filter((walk) => breaks(walk, beam(height)).length > 0);
      for (const { body } of seen) expect(body.stature_m).toBeGreaterThan(height);
      // Walkers are lower than they stand: up to 5 cm at the longest steps.
      const taller = adults.filter(({ body }) => body.stature_m > height + 0.05);
      expect(taller.filter((walk) => !seen.includes(walk))).toEqual([]);
    }
  });
});

describe('children', () => {
  const four = walks('four years', [4, 5]);
  const eight = walks('eight years', [8, 9]);

  test('above their heads beams see nothing of them: four years 1.30 m, eight years 1.55 m', () => {
    for (const height of [1.3, 1.4]) expect(Math.max(...counts(four, height))).toBe(0);
    for (const height of [1.55, 1.6]) expect(Math.max(...counts(eight, height))).toBe(0);
    expect(mean(counts(four, 0.6))).toBeGreaterThan(0.98);
    expect(mean(counts(eight, 0.9))).toBeGreaterThan(0.98);
  });

  test('a four-year-old at chest height walks cleanly through 12 cm of spacing, and is too shallow for 20 cm', () => {
    expect(clean(four, 0.6, 0.12)).toBeGreaterThan(0.9);
    expect(clean(four, 0.6, 0.2)).toBeLessThan(0.5);
  });
});

describe('the walk 00-10-11-01-00', () => {
  test('clean for adults from 1.0 to 1.3 m up to 12 cm of spacing, hardly ever at shin height', () => {
    for (const spacing of [0.04, 0.08, 0.12]) {
      for (const height of [1.0, 1.15, 1.3]) expect(clean(adults, height, spacing)).toBeGreaterThanOrEqual(0.98);
      for (const height of [0.15, 0.2]) expect(clean(adults, height, spacing)).toBeLessThanOrEqual(0.2);
    }
  });

  test('at 1.3 m the upper chest is shallower than 20 cm of spacing for many', () => {
    between(clean(adults, 1.3, 0.2), 0.3, 0.9);
  });
});

describe('two adults, one behind the other, beam at 1.0 m', () => {
  /** Share of pairs whose shadows are one; the second's trunk axis passes the beam `lag` seconds after the first's. */
  function merged(lag: (first: Body) => number): number {
    const pairs = adults.map((walk, i) => [walk, adults[(i + 2) % N] as Walk] as const);
    return share([...pairs], ([first, second]) => {
      const [a, b] = [breaks(first, beam(1)), breaks(second, beam(1))];
      const after = lag(first.body) + (first.passage.cross_s as number) - (second.passage.cross_s as number);
      return (b[0] as number) + after <= (a[1] as number);
    });
  }

  test('abreast, up to 0.1 s apart, they are one; half a metre behind they are two', () => {
    for (const lag of [0, 0.05, 0.1]) expect(merged(() => lag)).toBeGreaterThanOrEqual(0.98);
    expect(merged((first) => 0.5 / first.speed_mps)).toBeLessThanOrEqual(0.01);
    // In between it grows less likely.
    const shares = [0.1, 0.2, 0.3, 0.4, 0.5].map((lag) => merged(() => lag));
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
  });
});

/** Share of walks that show exactly one break on each beam, overlapping in the right order. */
function clean(all: readonly Walk[], height_m: number, spacing_m: number): number {
  return share(all, (walk) => {
    const near = breaks(walk, beam(height_m, -spacing_m / 2));
    const far = breaks(walk, beam(height_m, spacing_m / 2));
    const forward = (walk.passage.motion[0]?.frame.cos ?? 1) > 0;
    const [a, b] = forward ? [near, far] : [far, near];
    if (a.length !== 2 || b.length !== 2) return false;
    const order = [a[0], b[0], a[1], b[1]] as number[];
    return order.every((time, i) => i === 0 || time > (order[i - 1] as number));
  });
}
function lengths(intervals: readonly number[]): number[] {
  return intervals.flatMap((end, i) => (i % 2 === 1 ? [end - (intervals[i - 1] as number)] : []));
}
function share<T>(all: readonly T[], is: (one: T) => boolean): number {
  return all.filter(is).length / all.length;
}
function between(value: number, low: number, high: number): void {
  expect(value).toBeGreaterThanOrEqual(low);
  expect(value).toBeLessThanOrEqual(high);
}
