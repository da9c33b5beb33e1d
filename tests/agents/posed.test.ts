/** Poses at an instant against the slow way that pictures use, and bounds of when somebody is near against looking. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import { nodeAt, poseAt } from '../../src/agents/motion/motion.js';
import { nearWithin } from '../../src/agents/motion/near.js';
import type { Passage } from '../../src/agents/motion/passage.js';
import { Posed } from '../../src/agents/motion/posed.js';
import type { MixKind } from '../../src/agents/schema.js';
import { Stream } from '../../src/engine/stream.js';
import type { DesignDoor } from '../../src/scenario/schema.js';
import { partiesAlone } from '../../src/simulate/parties.js';
import { doorDesign, ROD } from '../simulate/designs.js';
import { howMany } from '../how-many.js';

const RUNS = howMany(80, 600);
const design = doorDesign({ walkers: ROD });
const door = design.doors[0] as DesignDoor;

const visitor = fc
  .record({
    who: fc.constantFrom('adult', 'child', 'rod', 'adult-with-infant'),
    kind: fc.constantFrom<MixKind>('through', 'turn-back', 'linger', 'abreast'),
    forward_share: fc.constantFrom(0, 1),
    seed: fc.string(),
  })
  .map(({ who, kind, forward_share, seed }): { body: Body; passage: Passage } => {
    const choice = { who, kind: who === 'rod' ? ('through' as const) : kind, forward_share };
    return partiesAlone(door, design.walkers, choice, 1, Stream.root(seed))[0]![0]!;
  });

test('a pose at an instant is the pose pictures are drawn from, to a micrometre', () => {
  fc.assert(
    fc.property(visitor, fc.double({ min: 0, max: 1, noNaN: true }), ({ body, passage }, share) => {
      const time = share * Math.min(passage.leave_s, 20);
      const out = new Float64Array(7 * body.limbs.count);
      expect(new Posed(body, passage.motion).into(time, out, 0, null)).toBe(out.length);
      const { stretch, node } = nodeAt(passage.motion, time);
      poseAt(body, stretch, node).forEach(({ x0, y0, z0, x1, y1, z1, radius }, i) => {
        [x0, y0, z0, x1, y1, z1, radius].forEach((value, k) => expect(out[7 * i + k]).toBeCloseTo(value, 6));
      });
    }),
    { numRuns: RUNS },
  );
});

test('outside the bounds no surface of the body is between two places; the bounds are not idle ones', () => {
  fc.assert(
    fc.property(
      visitor,
      fc.double({ min: -0.6, max: 0.5, noNaN: true }),
      fc.double({ min: 0, max: 0.3, noNaN: true }),
      fc.constantFrom([0, 3] as const, [0.9, 1] as const, [0, 0.2] as const),
      ({ body, passage }, from, depth, heights_m) => {
        const near = nearWithin(body, passage.motion, { along_m: [from, from + depth], heights_m });
        const out = new Float64Array(7 * body.limbs.count);
        const end = Math.min(passage.leave_s, 20);
        const posed = new Posed(body, passage.motion);
        let first = Infinity;
        for (let i = 0; i <= 400; i++) {
          const time = (end * i) / 400;
          posed.into(time, out, 0, null);
          let inside = false;
          for (let k = 0; k < out.length; k += 7) {
            const [a, b, radius] = [out[k + 1]!, out[k + 4]!, out[k + 6]!];
            if (Math.min(a, b) - radius > from + depth || Math.max(a, b) + radius < from) continue;
            const [low, high] = [Math.min(out[k + 2]!, out[k + 5]!), Math.max(out[k + 2]!, out[k + 5]!)];
            if (low - radius > heights_m[1] || high + radius < heights_m[0]) continue;
            inside = true;
            const limb = 2 * (k / 7);
            expect(time).toBeGreaterThanOrEqual(near!.limbs[limb]!);
            expect(time).toBeLessThanOrEqual(near!.limbs[limb + 1]!);
          }
          if (!inside) continue;
          first = Math.min(first, time);
          expect(near).not.toBeNull();
          expect(time).toBeGreaterThanOrEqual(near!.start_s);
          expect(time).toBeLessThanOrEqual(near!.end_s);
        }
        // A limb reaches forward only now and then: half a second before the first surface is generous enough.
        if (passage.motion.length === 1 && first < Infinity && first > 0) expect(first - near!.start_s).toBeLessThan(1);
      },
    ),
    { numRuns: RUNS },
  );
});

test('a rod is near exactly while its round is', () => {
  // 0.3 m thick at 1 m/s: between −0.05 and 0.05 from −0.20 to 0.20 of its axis, 0.4 s.
  const choice = { who: 'rod', kind: 'through', forward_share: 1 } as const;
  const { body, passage } = partiesAlone(door, design.walkers, choice, 1, Stream.root('rod'))[0]![0]!;
  const near = nearWithin(body, passage.motion, { along_m: [-0.05, 0.05], heights_m: [0, 3] });
  expect(near!.end_s - near!.start_s).toBeCloseTo(0.4, 3);
});
