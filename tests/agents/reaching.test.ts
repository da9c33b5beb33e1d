/** Reaching through: the arm goes through the opening, nobody does. */
import { describe, expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import { PART } from '../../src/agents/gait/parts.js';
import { nodeAt, poseAt } from '../../src/agents/motion/motion.js';
import { reachThrough } from '../../src/agents/motion/reaching.js';
import type { Load } from '../../src/agents/schema.js';
import { drawBody } from '../../src/agents/walkers.js';
import { Stream } from '../../src/engine/stream.js';
import { across, disagreements, exactBreaks, largestJump } from './edges.js';

const root = Stream.root('reaching');
const OPENING = { width_m: 0.9, zone_m: 1 };
function somebody(n: number, load?: Load): Body {
  const ages_y: [number, number] = n % 3 === 0 ? [6, 12] : [18, 85];
  const walker = { kind: 'people', ages_y, women_share: 0.5, with_infant: n % 4 === 1, load } as const;
  return drawBody('somebody', walker, n, OPENING, 0.7, root.nth(n));
}
const SOME = Array.from({ length: 24 }, (_, n) => {
  const body = somebody(n);
  return { body, passage: reachThrough(body, OPENING, n % 2 === 1, root.child('visit').nth(n)), back: n % 2 === 1 };
});

describe('somebody who reaches through', () => {
  test('leaves where they came from: nobody crosses, and the trunk stays on its side', () => {
    for (const { body, passage, back } of SOME) {
      expect(passage.cross_s).toBeNull();
      let furthest = -Infinity;
      for (let k = 0; k <= 200; k++) {
        const { stretch, node } = nodeAt(passage.motion, (passage.leave_s * k) / 200);
        furthest = Math.max(furthest, (back ? -1 : 1) * poseAt(body, stretch, node)[0]!.y0);
      }
      expect(furthest).toBeLessThan(-0.15);
      const { stretch, node } = nodeAt(passage.motion, passage.leave_s);
      expect((back ? -1 : 1) * poseAt(body, stretch, node)[0]!.y0).toBeCloseTo(-1, 2);
    }
  });

  test('has one hand through the door plane, between the height of the belly and that of the shoulders', () => {
    for (const { body, passage, back } of SOME) {
      const hands = body.limbs
        .list()
        .flatMap(({ part }, i) => (part === PART.forearmR || part === PART.forearmL ? [i] : []));
      let best = { y: -Infinity, z: 0 };
      for (let k = 0; k <= 400; k++) {
        const { stretch, node } = nodeAt(passage.motion, (passage.leave_s * k) / 400);
        const pose = poseAt(body, stretch, node);
        for (const hand of hands) {
          const y = (back ? -1 : 1) * pose[hand]!.y1;
          if (y > best.y) best = { y, z: pose[hand]!.z1 };
        }
      }
      // A child stops no nearer than others, and its arm may just reach the plane.
      expect(best.y).toBeGreaterThan(body.stature_m > 1.45 ? 0.07 : -0.05);
      expect(best.y).toBeLessThan(0.45);
      expect(best.z / body.stature_m).toBeGreaterThan(0.55);
      expect(best.z / body.stature_m).toBeLessThan(0.87);
    }
  });

  test('breaks a beam in the door plane by the arm alone: high enough it is broken, below the arm never', () => {
    let broken = 0;
    for (const { body, passage, back } of SOME) {
      expect(exactBreaks(body, passage, across(back ? -0.2 : 0.2, 0.3))).toEqual([]);
      for (const height of [0.55, 0.65, 0.75, 0.8])
        if (exactBreaks(body, passage, across(0, height * body.stature_m)).length > 0) {
          broken++;
          break;
        }
    }
    expect(broken).toBeGreaterThan(18);
  });

  test('moves without a jump, and its edges are those the stepper finds', () => {
    for (const [n, { body, passage }] of SOME.entries()) {
      expect(largestJump(body, passage)).toBeLessThan(2e-6);
      const chance = root.child('beam').nth(n);
      const line = across(0.5 * chance.at(0) - 0.3, 0.5 + chance.at(1));
      expect(disagreements(body, passage, line), String(n)).toEqual([]);
    }
  });

  test('takes the hand that is free, and only turns back where none is', () => {
    const forearms = (body: Body) =>
      body.limbs.list().filter(({ part }) => part === PART.forearmR || part === PART.forearmL);
    const pulling = somebody(2, 'suitcase');
    expect(forearms(pulling).map(({ part }) => part)).toEqual([PART.forearmL]);
    expect(reachThrough(pulling, OPENING, false, root.child('pull')).cross_s).toBeNull();
    const laden = somebody(2, 'tray');
    expect(forearms(laden)).toEqual([]);
    expect(reachThrough(laden, OPENING, false, root.child('tray')).cross_s).toBeNull();
  });
});
