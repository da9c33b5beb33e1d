/** What people carry, push and pull, and what rolls by itself: one body, that goes on evenly where it has wheels. */
import { describe, expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import { PART } from '../../src/agents/gait/parts.js';
import type { Capsule } from '../../src/agents/motion/motion.js';
import { nodeAt, poseAt } from '../../src/agents/motion/motion.js';
import type { Passage } from '../../src/agents/motion/passage.js';
import { linger, through, turnBack } from '../../src/agents/motion/passage.js';
import { personsOf } from '../../src/agents/party.js';
import { chair } from '../../src/agents/loads/wheelchair.js';
import { BUILT_IN_WALKERS, LOADS, walkerSchema } from '../../src/agents/schema.js';
import type { Load, Walker } from '../../src/agents/schema.js';
import { drawBody } from '../../src/agents/walkers.js';
import { Stream } from '../../src/engine/stream.js';
import type { BeamLine } from '../../src/geometry/beam-line.js';
import { across, disagreements, exactBreaks, largestJump } from './edges.js';

const root = Stream.root('loads');
const OPENING = { width_m: 0.9, zone_m: 1 };
const PEOPLE = { kind: 'people', ages_y: [18, 85] as [number, number], women_share: 0.5, with_infant: false } as const;
const withLoad = (load: Load | undefined): Walker => ({ ...PEOPLE, load });
const ROLLING = ['trolley', 'pram', 'rollator', 'wheelchair', 'suitcase'] as const;

function bodyOf(walker: Walker, n: number): Body {
  return drawBody('somebody', walker, n, OPENING, 0.7, root.nth(n));
}
function poseIn(body: Body, { motion }: Passage, time_s: number): Capsule[] {
  const { stretch, node } = nodeAt(motion, time_s);
  return poseAt(body, stretch, node);
}

describe('a body with a load', () => {
  test('is the body without it, with more capsules: nobody changes size or pace for a load', () => {
    for (const load of LOADS) {
      for (let n = 0; n < 5; n++) {
        const [bare, laden] = [bodyOf(withLoad(undefined), n), bodyOf(withLoad(load), n)];
        expect(laden.limbs.count).toBeGreaterThan(bare.limbs.count);
        expect([laden.stature_m, laden.speed_mps, laden.step]).toEqual([bare.stature_m, bare.speed_mps, bare.step]);
        expect(laden.breadth_m).toBeGreaterThanOrEqual(bare.breadth_m);
      }
    }
  });

  test('has on board who sits or lies in it', () => {
    const persons = Object.fromEntries(LOADS.map((load) => [load, bodyOf(withLoad(load), 1).persons]));
    expect(persons).toEqual({
      rucksack: 1,
      'laundry-basket': 1,
      tray: 1,
      suitcase: 1,
      trolley: 1,
      pram: 2,
      rollator: 1,
      wheelchair: 2,
    });
    for (const load of LOADS) expect(personsOf(withLoad(load))).toBe(persons[load]);
    expect(bodyOf({ ...PEOPLE, with_infant: true, load: 'pram' }, 1).persons).toBe(3);
    expect(bodyOf(BUILT_IN_WALKERS['wheelchair-user'] as Walker, 1)).toMatchObject({ persons: 1, sort: 'person' });
    expect(bodyOf(BUILT_IN_WALKERS['robot-vacuum'] as Walker, 1)).toMatchObject({ persons: 0, sort: 'thing' });
  });

  test('does not swing the arms that hold it', () => {
    const swings = (load: Load | undefined): number[] => {
      const { limbs } = bodyOf(withLoad(load), 2);
      return [PART.forearmR, PART.forearmL].filter((part) => limbs.list().some((limb) => limb.part === part));
    };
    expect(swings('rucksack')).toEqual([PART.forearmR, PART.forearmL]);
    expect(swings('suitcase')).toEqual([PART.forearmL]);
    for (const load of ['tray', 'laundry-basket', 'trolley', 'pram', 'rollator', 'wheelchair'] as const)
      expect(swings(load)).toEqual([]);
  });
});

describe('what rolls', () => {
  test('keeps its height and its place across, and goes as far as the trunk does', () => {
    for (const load of ROLLING) {
      const body = bodyOf(withLoad(load), 3);
      const passage = through(body, OPENING, false, root.child('even'), 0.45);
      const start = poseIn(body, passage, 0);
      for (let k = 1; k <= 40; k++) {
        const now = poseIn(body, passage, (k / 40) * passage.leave_s);
        const went = now[0]!.y0 - start[0]!.y0;
        body.limbs.list().forEach(({ part }, i) => {
          if (part !== PART.carriage) return;
          const [a, b] = [start[i]!, now[i]!];
          expect(Math.max(Math.abs(a.z0 - b.z0), Math.abs(a.x0 - b.x0))).toBeLessThan(1e-6);
          expect(Math.abs(b.y0 - a.y0 - went)).toBeLessThan(1e-6);
        });
      }
    }
  });

  test('stays on the floor, in every stretch of every passage', () => {
    for (const load of ROLLING)
      for (const kind of [through, turnBack, linger]) {
        const body = bodyOf(withLoad(load), 4);
        for (const stretch of kind(body, OPENING, false, root.child('floor', load)).motion)
          for (let node = stretch.from; node <= stretch.to; node += 1.5)
            poseAt(body, stretch, node).forEach(({ z0, z1, radius }, i) => {
              if (body.limbs.partOf(i) === PART.carriage)
                expect(Math.min(z0, z1) - radius).toBeGreaterThanOrEqual(-1e-6);
            });
      }
  });

  test('a wheelchair keeps within the largest outer sizes of ISO 7193:1985, 1.20 × 0.70 × 1.09 m (from memory)', () => {
    const limbs = chair({ part: PART.trunk, unit_m: 1, zero_m: 0 }, 0);
    const span = (low: (limb: (typeof limbs)[number]) => number, high: (limb: (typeof limbs)[number]) => number) =>
      Math.max(...limbs.map(high)) - Math.min(...limbs.map(low));
    const long = span(
      ({ aw, bw, radius }) => Math.min(aw, bw) - radius,
      ({ aw, bw, radius }) => Math.max(aw, bw) + radius,
    );
    const wide = span(
      ({ al, bl, radius }) => Math.min(al, bl) - radius,
      ({ al, bl, radius }) => Math.max(al, bl) + radius,
    );
    const high = Math.max(...limbs.map(({ az, bz, radius }) => Math.max(az, bz) + radius));
    expect(long).toBeLessThanOrEqual(1.2);
    expect(long).toBeGreaterThan(0.8);
    expect(wide).toBeLessThanOrEqual(0.7);
    expect(wide).toBeGreaterThan(0.55);
    expect(high).toBeLessThanOrEqual(1.09);
    // And on its wheels.
    expect(Math.min(...limbs.map(({ az, bz, radius }) => Math.min(az, bz) - radius))).toBeCloseTo(0, 9);
  });
});

/** Who turns with a pram swings it round through the jambs, and the search takes a beam's line to go on behind them. */
function beyondJambs({ from, to }: BeamLine): BeamLine {
  const slope = (to.z - from.z) / (to.x - from.x);
  return { from: { ...from, x: -3, z: from.z - 3 * slope }, to: { ...to, x: 4, z: from.z + 4 * slope } };
}

describe('passages with a load', () => {
  const WALKERS: readonly [string, Walker][] = [
    ...LOADS.map((load): [string, Walker] => [load, withLoad(load)]),
    ...(['wheelchair-user', 'robot-vacuum'] as const).map((who): [string, Walker] => [who, BUILT_IN_WALKERS[who]!]),
  ];

  test('nothing jumps from one stretch of motion to the next', () => {
    for (const load of LOADS)
      for (let n = 0; n < 6; n++) {
        const body = bodyOf(withLoad(load), n);
        const kind = n % 2 === 0 ? turnBack : linger;
        expect(largestJump(body, kind(body, OPENING, n > 2, root.child('jumps', load).nth(n)))).toBeLessThan(2e-6);
      }
  });

  test.each(WALKERS)('%s: no beam in reach of the zone is touched as the visit begins or ends', (_, walker) => {
    for (let n = 0; n < 6; n++) {
      const body = bodyOf(walker, n);
      const passage = through(body, OPENING, n % 2 === 0, root.child('outside').nth(n));
      for (const at of [-0.399, 0, 0.399])
        for (const height of [0.03, 0.08, 0.3, 0.6, 0.95, 1.3]) {
          const breaks = exactBreaks(body, passage, across(at, height));
          if (breaks.length === 0) continue;
          expect(breaks[0]).toBeGreaterThan(0);
          expect(breaks.at(-1)).toBeLessThan(passage.leave_s);
        }
    }
  });

  test.each(WALKERS)('%s: edges are those the stepper finds', (name, walker) => {
    let edges = 0;
    for (let n = 0; n < 6; n++) {
      const chance = root.child('edges', name).nth(n);
      const body = bodyOf(walker, 10 + n);
      const kind = body.step === 0 || n < 4 ? through : turnBack;
      const passage = kind(body, OPENING, n % 2 === 0, chance);
      const line = across(0.6 * chance.at(20) - 0.3, 0.02 + 1.1 * chance.at(21) * (body.persons === 0 ? 0.06 : 1));
      const tilted = { from: line.from, to: { ...line.to, z: line.to.z + 0.05 * chance.at(22) } };
      const seen = n % 2 === 0 ? line : tilted;
      expect(disagreements(body, passage, beyondJambs(seen)), `${name} ${n}`).toEqual([]);
      edges += exactBreaks(body, passage, seen).length;
    }
    expect(edges).toBeGreaterThanOrEqual(8);
  });

  test('a basket before the belly breaks a beam at its height before the trunk does, and without a gap', () => {
    const [bare, laden] = [bodyOf(withLoad(undefined), 5), bodyOf(withLoad('laundry-basket'), 5)];
    const chance = root.child('basket');
    const height = 1;
    const [first = 0] = exactBreaks(bare, through(bare, OPENING, false, chance, 0.45), across(0, height));
    const breaks = exactBreaks(laden, through(laden, OPENING, false, chance, 0.45), across(0, height));
    expect(breaks).toHaveLength(2);
    // The visit of the laden one begins where that of the other does: the basket reaches 0.6 m ahead at the most.
    expect(breaks[0]).toBeLessThan(first - 0.2);
  });
});

describe('the schema', () => {
  test('takes a load on people of all kinds, and on nobody else', () => {
    const rows = [{ stature_m: 1.7 }];
    for (const walker of [
      { kind: 'people', ages_y: [20, 30] },
      { kind: 'person', stature_m: 1.7, sex: 'man', age_y: 40 },
      { kind: 'table', rows },
    ])
      expect(walkerSchema.parse({ ...walker, load: 'tray' })).toMatchObject({ load: 'tray' });
    for (const walker of [
      { kind: 'test-rod', diameter_m: 0.05, speed_mps: 1 },
      { kind: 'wheelchair-user' },
      { kind: 'robot-vacuum' },
    ]) {
      expect(walkerSchema.safeParse(walker).success).toBe(true);
      expect(walkerSchema.safeParse({ ...walker, load: 'tray' }).success).toBe(false);
    }
  });
});
