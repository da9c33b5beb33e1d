/** The leaf of a door and a curtain beside it: how they move, and who opens and shuts. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import { LEAF_HELD } from '../../src/agents/figures/leaf.js';
import { curtainBody, gust } from '../../src/agents/leaf/curtain.js';
import { leafBody, leafStir, leafSwing, unseen_s } from '../../src/agents/leaf/leaf.js';
import { LeafKeeper } from '../../src/agents/leaf/leaf-keeper.js';
import { poseAt } from '../../src/agents/motion/motion.js';
import type { Passage } from '../../src/agents/motion/passage.js';
import { Stream } from '../../src/engine/stream.js';
import type { Leaf } from '../../src/geometry/schema.js';
import { curtainSchema, leafSchema } from '../../src/geometry/schema.js';
import { across, disagreements, exactBreaks } from './edges.js';

const PLACE = { width_m: 0.9, height_m: 2, jamb_depth_m: 0.12 };
const FACE = 0.06;
const leafOf = (changes: Partial<Leaf> = {}): Leaf => leafSchema.parse(changes);
const PERSON = { persons: 1 };
const PET = { persons: 0 };
const S = 1e6;

function pose(body: Body, { motion }: Passage, share: number) {
  const [stretch] = motion as [(typeof motion)[number]];
  return poseAt(body, stretch, stretch.from + share * (stretch.to - stretch.from));
}

describe('a leaf', () => {
  const leaf = leafOf({ opens_deg: 90 });
  const body = leafBody(leaf, PLACE, 7);
  const opening = leafSwing(leaf, PLACE, 'open');

  test('is a thing with nobody aboard', () => {
    expect(body).toMatchObject({ sort: 'thing', who: 'leaf', persons: 0, number: 7 });
    expect(opening.cross_s).toBeNull();
  });

  test('lies in the frame when shut, flush with the face of the side it opens to, from jamb to jamb', () => {
    for (const opens of ['forward', 'backward'] as const)
      for (const hinge of ['left', 'right'] as const) {
        const own = leafOf({ opens_deg: 90, opens, hinge });
        const shut = pose(leafBody(own, PLACE, 1), leafSwing(own, PLACE, 'open'), 0);
        const side = opens === 'forward' ? 1 : -1;
        for (const { y0, radius } of shut) expect(side * y0 + radius).toBeCloseTo(FACE, 6);
        expect(Math.min(...shut.map(({ x0, radius }) => x0 - radius))).toBeCloseTo(0, 6);
        expect(Math.max(...shut.map(({ x0, radius }) => x0 + radius))).toBeCloseTo(PLACE.width_m, 6);
        // Open, it stands square to the wall by its hinge.
        const open = pose(leafBody(own, PLACE, 1), leafSwing(own, PLACE, 'open'), 1);
        for (const { x0, radius } of open) expect(hinge === 'left' ? x0 : PLACE.width_m - x0).toBeCloseTo(radius, 6);
        expect(Math.max(...open.map(({ y0 }) => side * y0))).toBeGreaterThan(FACE + 0.85);
      }
  });

  test('is solid: no line across it, at any height and any angle of the leaf, slips between two of its capsules', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 1.95, noNaN: true }),
        fc.double({ min: 0.02, max: 0.98, noNaN: true }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (z, share, along) => {
          // A point of the slab's middle plane between hinge and edge is inside a capsule, whatever lies between.
          const posts = pose(body, opening, share);
          const [first, last] = [posts[0]!, posts.at(-1)!];
          const p = {
            x: first.x0 + along * (last.x0 - first.x0),
            y: first.y0 + along * (last.y0 - first.y0),
          };
          const gap = Math.min(...posts.map(({ x0, y0, radius }) => Math.hypot(x0 - p.x, y0 - p.y) - radius));
          // Deeper than a fifth of its thickness: the dents between two posts are no deeper than that.
          expect(gap).toBeLessThan(-0.3 * first.radius);
          expect(posts.every(({ z0, z1, radius }) => z0 - radius <= z && z1 + radius >= z)).toBe(true);
        },
      ),
      { seed: 4, numRuns: 300 },
    );
  });

  test('keeps within a millimetre of the arc about its hinge', () => {
    const [stretch] = opening.motion as [(typeof opening.motion)[number]];
    const edge = body.limbs.count - 1;
    const far = pose(body, opening, 0)[edge]!;
    const radius = Math.hypot(far.x0, far.y0 - FACE);
    for (let node = stretch.from; node <= stretch.to; node += 0.125) {
      const { x0, y0 } = poseAt(body, stretch, node)[edge]!;
      expect(Math.abs(Math.hypot(x0, y0 - FACE) - radius)).toBeLessThan(1e-3);
    }
  });

  test('breaks beams beyond the face it opens to, and none within the frame or on the other side', () => {
    for (const opens of ['forward', 'backward'] as const) {
      const own = leafOf({ opens });
      const side = opens === 'forward' ? 1 : -1;
      const swung = leafBody(own, PLACE, 1);
      for (const way of ['open', 'shut'] as const) {
        const passage = leafSwing(own, PLACE, way);
        for (const at of [0.07, 0.2, 0.5, 0.9])
          expect(exactBreaks(swung, passage, across(side * at, 0.95))).toHaveLength(2);
        for (const at of [0.015, 0, -0.05, -0.3])
          expect(exactBreaks(swung, passage, across(side * at, 0.95))).toEqual([]);
      }
    }
  });

  test('shuts as it opened, the other way round in time', () => {
    const shutting = leafSwing(leaf, PLACE, 'shut');
    const line = across(0.3, 1);
    const [a = 0, b = 0] = exactBreaks(body, opening, line);
    const [c = 0, d = 0] = exactBreaks(body, shutting, line);
    expect([c, d]).toEqual([expect.closeTo(leaf.swing_s - b, 4), expect.closeTo(leaf.swing_s - a, 4)]);
  });

  test('is seen to swing as far as 90 degrees only, and takes its whole time', () => {
    const wide = leafOf({ opens_deg: 180 });
    const passage = leafSwing(wide, PLACE, 'open');
    // Half of the way is half of the time: the swing is even on both sides of its middle.
    expect(passage.leave_s).toBeCloseTo(wide.swing_s / 2, 9);
    expect(unseen_s(wide)).toBeCloseTo(wide.swing_s / 2, 9);
    expect(unseen_s(leaf)).toBe(0);
    expect(pose(leafBody(wide, PLACE, 1), passage, 1)[5]!.x0).toBeCloseTo(wide.thickness_m / 2, 6);
  });

  test('stirs in a draught and comes back to where it was', () => {
    const passage = leafStir(leaf, PLACE, 15, 3);
    const [before, turned, after] = [0, 0.5, 1].map((share) => pose(body, passage, share).at(-1)!);
    expect(Math.hypot(before!.x0 - after!.x0, before!.y0 - after!.y0)).toBeLessThan(1e-6);
    // 2 R sin 7.5°, the chord of 15 degrees.
    expect(Math.hypot(before!.x0 - turned!.x0, before!.y0 - turned!.y0)).toBeCloseTo(
      2 * Math.hypot(0.88, 0.02) * Math.sin((7.5 * Math.PI) / 180),
      3,
    );
  });

  test('edges of swings, stirs and gusts are those the stepper finds', () => {
    const root = Stream.root('leaf edges');
    const curtain = curtainSchema.parse({ at_m: 0.4, swing_m: -0.6 });
    const hung = curtainBody(PLACE, 2);
    let edges = 0;
    for (let n = 0; n < 8; n++) {
      const chance = root.nth(n);
      const own = leafOf({ opens_deg: 80 + 40 * chance.at(0), swing_s: 0.6 + chance.at(1) });
      const line = across(0.8 * chance.at(2), 0.2 + 1.5 * chance.at(3));
      const swung = leafBody(own, PLACE, 1);
      for (const passage of [
        leafSwing(own, PLACE, 'open'),
        leafSwing(own, PLACE, 'shut'),
        leafStir(own, PLACE, 15, 3),
      ]) {
        expect(disagreements(swung, passage, line)).toEqual([]);
        edges += exactBreaks(swung, passage, line).length;
      }
      const blown = gust(curtain, PLACE);
      const beside = across(0.39 - 0.6 * chance.at(4), 0.1 + chance.at(5));
      expect(disagreements(hung, blown, beside)).toEqual([]);
      edges += exactBreaks(hung, blown, beside).length;
    }
    expect(edges).toBeGreaterThan(40);
  });
});

describe('a curtain', () => {
  test('is blown from its place to its swing and back, and its hem keeps off the floor', () => {
    const curtain = curtainSchema.parse({ at_m: 0.4, swing_m: -0.6 });
    const body = curtainBody(PLACE, 1);
    const passage = gust(curtain, PLACE);
    expect(pose(body, passage, 0)[0]!.y0).toBeCloseTo(0.4, 6);
    expect(pose(body, passage, 0.5)[0]!.y0).toBeCloseTo(-0.2, 2);
    expect(pose(body, passage, 1)[0]!.y0).toBeCloseTo(0.4, 6);
    for (const share of [0, 0.3, 0.5]) {
      const [fold] = pose(body, passage, share);
      expect(Math.min(fold!.z0, fold!.z1) - fold!.radius).toBeGreaterThan(0.02);
      expect(fold!.y1).toBeCloseTo(0.4, 6);
    }
    // Out and back: a beam half-way is broken twice, one on the far side never.
    expect(exactBreaks(body, passage, across(0.1, 0.3))).toHaveLength(4);
    expect(exactBreaks(body, passage, across(0.45, 0.3))).toEqual([]);
  });
});

describe('a keeper', () => {
  const keeperOf = (changes: Partial<Leaf>, seed = 'keeper'): LeafKeeper =>
    new LeafKeeper(leafOf(changes), PLACE, 1, Stream.root(seed));

  test('begins shut where most people shut it, open where most leave it', () => {
    expect(keeperOf({ shut_share: 0.5 }).isOpen(0)).toBe(true);
    expect(keeperOf({ shut_share: 0.51 }).isOpen(0)).toBe(false);
  });

  test('lets who comes to a shut leaf in when it has swung open, and the next one without a wait', () => {
    const keeper = keeperOf({ shut_share: 1, swing_s: 2 });
    const { enter_us, swing } = keeper.admit(PERSON, 10 * S);
    expect([enter_us, swing?.enter_us]).toEqual([12 * S, 10 * S]);
    expect(swing?.forward).toBe(true);
    expect(keeper.admit(PERSON, 11 * S)).toEqual({ enter_us: 12 * S, swing: null });
    expect(keeper.admit(PERSON, 13 * S)).toEqual({ enter_us: 13 * S, swing: null });
  });

  test('shuts behind the last one only: who comes while it is held open keeps it so', () => {
    const keeper = keeperOf({ shut_share: 1 });
    keeper.admit(PERSON, 0);
    const first = keeper.used(4 * S);
    expect(first).toBe((4 + LEAF_HELD.value) * S);
    keeper.admit(PERSON, first - 1);
    const second = keeper.used(first + 3 * S);
    expect(keeper.after(first)).toBeNull();
    const swing = keeper.after(second);
    // Its way beyond 90 degrees comes first, and is not seen.
    expect(swing?.enter_us).toBe(second + Math.round(unseen_s(leafOf()) * S));
    expect(swing?.forward).toBe(false);
    expect(keeper.isOpen(second + 1)).toBe(false);
  });

  test('opens again once it is shut for who comes while it swings to', () => {
    const keeper = keeperOf({ shut_share: 1, swing_s: 2 });
    keeper.admit(PERSON, 0);
    const time = keeper.used(5 * S);
    expect(keeper.after(time)).not.toBeNull();
    expect(keeper.admit(PERSON, time + S)).toMatchObject({ enter_us: time + 4 * S, swing: { enter_us: time + 2 * S } });
  });

  test('lets nobody in who has nobody aboard, unless it is open', () => {
    const keeper = keeperOf({ shut_share: 1 });
    expect(keeper.admit(PET, 5 * S)).toEqual({ enter_us: Infinity, swing: null });
    const { enter_us } = keeper.admit(PERSON, 6 * S);
    expect(keeper.admit(PET, enter_us)).toEqual({ enter_us, swing: null });
  });

  test('is shut by the share of those who go through that shut it: 0.3 of 4,000, within four standard errors', () => {
    const keeper = keeperOf({ shut_share: 0.3 });
    let shut = 0;
    let time = 0;
    const n = 4000;
    for (let i = 0; i < n; i++) {
      const { enter_us } = keeper.admit(PERSON, time);
      time = keeper.used(enter_us + 3 * S);
      if (keeper.after(time)) shut++;
      time += 60 * S;
    }
    expect(Math.abs(shut / n - 0.3)).toBeLessThan(4 * Math.sqrt((0.3 * 0.7) / n));
  });

  test('stirs only while it stands open', () => {
    const shut = keeperOf({ shut_share: 1 });
    expect(shut.stir(S)).toBeNull();
    const open = keeperOf({ shut_share: 0 });
    expect(open.stir(S)?.enter_us).toBe(S);
    expect(open.stir(S + 1)).toBeNull();
    expect(open.admit(PERSON, S + 1).swing).toBeNull();
  });
});
