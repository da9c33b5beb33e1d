/** What holds for every posed body: limbs keep their lengths, no leg over-reaches, planted feet stay, nothing jumps. */
import { describe, expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import { personBody } from '../../src/agents/body.js';
import { footAxis } from '../../src/agents/gait/foot.js';
import { NODES, classStep } from '../../src/agents/gait/gait-table.js';
import { legModel } from '../../src/agents/gait/leg-model.js';
import { PART } from '../../src/agents/gait/parts.js';
import type { Capsule, Motion, Stretch } from '../../src/agents/motion/motion.js';
import { nodeAt, poseAt } from '../../src/agents/motion/motion.js';
import type { Passage } from '../../src/agents/motion/passage.js';
import { linger, through, turnBack } from '../../src/agents/motion/passage.js';
import { drawPerson } from '../../src/agents/population.js';
import { Stream } from '../../src/engine/stream.js';
import type { Leg, Moment } from './walking.js';
import { EVEN, adultWithStep, kneeAngle, momentAt, momentsOf, slip, stances, walkOf } from './walking.js';

const root = Stream.root('motion');
const OPENING = { width_m: 0.9, zone_m: 1.2 };

function anybody(n: number): Body {
  const walker = { kind: 'people', ages_y: [2, 85] as [number, number], women_share: 0.5, with_infant: n % 5 === 0 };
  return personBody('anybody', n, drawPerson({ ...walker, kind: 'people' }, root.nth(n), 0.8));
}
/** 30 people of all ages, each walking in, stopping and going back or on. */
const STOPPING: readonly { body: Body; passage: Passage }[] = Array.from({ length: 30 }, (_, n) => {
  const body = anybody(n);
  return { body, passage: (n % 3 === 0 ? linger : turnBack)(body, OPENING, n % 2 === 0, root.child('visit').nth(n)) };
});
/** Stretches that are neither standing nor turning: in those the pelvis moves over feet that stay, or whole limbs turn. */
function stepping({ motion }: Passage): Stretch[] {
  return motion.filter(
    (stretch, i) => !stretch.perLimb && (stretch.tracks.span.advance > 0 || i === 1 || i === motion.length - 2),
  );
}

describe('limbs', () => {
  // In the plane of walking; the pelvis' sway over planted feet tilts legs sideways, up to 2 mm in length, unmodelled.
  test('thighs, shanks and feet keep their lengths to half a millimetre, walking, stopping and setting out', () => {
    for (const { body, passage } of STOPPING) {
      const lengths = new Map<number, [number, number]>();
      for (const stretch of stepping(passage)) {
        for (const pose of posesOf(body, stretch)) {
          pose.forEach((capsule, i) => {
            const part = body.limbs.partOf(i);
            if (part === PART.trunk || part >= PART.upperArmR) return;
            const [low, high] = lengths.get(i) ?? [Infinity, -Infinity];
            const length = inPlane(capsule, stretch);
            lengths.set(i, [Math.min(low, length), Math.max(high, length)]);
            expect(Math.abs(lengthOf(capsule) - length)).toBeLessThan(3e-3);
          });
        }
      }
      for (const [low, high] of lengths.values()) expect(high - low).toBeLessThan(5e-4 * 2);
    }
  });

  test('no knee is ever stretched: 2.8 degrees are left at every step length and in every stop', () => {
    for (let step = 0.22; step <= 0.52; step += 0.02) {
      const moments = walkOf(adultWithStep(step), 1.5, 2e-3);
      for (const { right, left } of moments) expect(Math.min(kneeAngle(right), kneeAngle(left))).toBeGreaterThan(2.8);
    }
    for (const { body, passage } of STOPPING)
      for (const stretch of stepping(passage))
        for (const pose of posesOf(body, stretch)) expect(straightestKnee(body, pose)).toBeGreaterThan(2.8);
  });

  test('nothing jumps where one stretch of motion ends and the next begins', () => {
    for (const { body, passage } of STOPPING) {
      for (let i = 1; i < passage.motion.length; i++) {
        const [before, after] = [passage.motion[i - 1]!, passage.motion[i]!];
        expect(after.timeAt(after.from)).toBeCloseTo(before.timeAt(before.to), 9);
        const ends = poseAt(body, before, before.to);
        const starts = poseAt(body, after, after.from);
        ends.forEach((capsule, k) => expect(apart(capsule, starts[k]!)).toBeLessThan(2e-6));
      }
    }
  });
});

describe('feet on the floor', () => {
  test('a planted foot stays: it rolls over its heel, stands, rolls over its toes, all within 0.7 mm of one place', () => {
    for (const [step, stature, speed] of [
      [0.28, 1.75, 0.6],
      [0.36, 1.6, 1],
      [0.42, 1.8, 1.4],
      [0.48, 1.7, 1.8],
    ] as const) {
      const moments = walkOf(adultWithStep(step, stature, speed), 2, 1e-3);
      for (const side of ['right', 'left'] as const) {
        for (const [from, to] of stances(moments, side, speed)) {
          const flat = moments[Math.round(from + 0.35 * (to - from))]![side];
          for (const moment of moments.slice(from, to)) {
            expect(strayOf(moment[side], flat)).toBeLessThan(7e-4);
          }
        }
      }
    }
  });

  test('somebody who walks in, stops, turns and leaves always has one foot that stays where it is', () => {
    for (const { body, passage } of STOPPING) {
      const step_s = 2e-3;
      const moments = momentsOf(body, passage.motion, passage.leave_s, step_s);
      // Between nodes a rolling foot follows chords: up to 0.1 m/s for some milliseconds, to and fro within 0.7 mm.
      for (let i = 1; i < moments.length; i++) {
        if (within(passage.motion, moments[i]!)) continue;
        const [a, b] = [moments[i - 1]!, moments[i]!];
        expect(Math.min(slip(a.right, b.right), slip(a.left, b.left)) / step_s).toBeLessThan(0.1);
      }
    }
  });

  test('in the closing and in the first step the planted foot keeps to one place too', () => {
    for (const { body, passage } of STOPPING) {
      for (const [stretch, standingEnd] of [
        [passage.motion[1]!, 1],
        [passage.motion.at(-2)!, 0],
      ] as const) {
        const [start, end] = [stretch.timeAt(stretch.from), stretch.timeAt(stretch.to)];
        const legs = Array.from({ length: 101 }, (_, k) =>
          momentAt(body, passage.motion, start + ((end - start) * k) / 100),
        );
        const standing = legs[standingEnd * 100]!;
        const strayed = (['right', 'left'] as const).map((side) =>
          Math.max(...legs.map((moment) => strayOf(moment[side], standing[side]))),
        );
        expect(Math.min(...strayed)).toBeLessThan(7e-4);
      }
    }
  });

  test('turning on the spot, a foot is lifted before it moves', () => {
    for (const { body, passage } of STOPPING) {
      for (const stretch of passage.motion.filter(({ perLimb }) => perLimb)) {
        const feet = body.limbs
          .list()
          .flatMap((limb, i) => (limb.part === PART.footR || limb.part === PART.footL ? [i] : []));
        const poses = posesOf(body, stretch, 20);
        for (const foot of feet) {
          for (let k = 1; k < poses.length; k++) {
            const [a, b] = [poses[k - 1]![foot]!, poses[k]![foot]!];
            const lifted_m = Math.max(a.z0, b.z0) - a.radius;
            if (lifted_m < 1e-4) expect(apart(a, b)).toBeLessThan(1e-3);
          }
        }
      }
    }
  });

  test('nobody sinks into the floor', () => {
    for (const { body, passage } of STOPPING)
      for (const stretch of passage.motion)
        for (const pose of posesOf(body, stretch))
          expect(Math.min(...pose.map((c) => Math.min(c.z0, c.z1) - c.radius))).toBeGreaterThan(-5e-4);
  });
});

describe('gait tables', () => {
  test('the node model is within 0.5 mm of the smooth gait up to a step of 0.40, within 1 mm up to 0.48', () => {
    for (const wanted of [0.24, 0.28, 0.32, 0.36, 0.4, 0.44, 0.48]) {
      const step = classStep(wanted);
      const body = adultWithStep(step, 1.75, 1);
      const model = legModel(step);
      const { motion } = through(body, { width_m: 2, zone_m: 2 }, false, EVEN);
      const stretch = motion[0]!;
      for (let node = NODES; node < 2 * NODES; node += 0.25) {
        const f = node / NODES - 1;
        const smooth = model.pose(f);
        const foot = footAxis(smooth.ankle, smooth.pitch);
        const pose = poseAt(body, stretch, node);
        const of = (part: number) => pose[body.limbs.list().findIndex((limb) => limb.part === part)]!;
        const [thigh, shank, sole] = [of(PART.thighR), of(PART.shankR), of(PART.footR)];
        for (const [y, z, joint] of [
          [thigh.y0, thigh.z0, smooth.hip],
          [thigh.y1, thigh.z1, smooth.knee],
          [shank.y1, shank.z1, smooth.ankle],
          [sole.y0, sole.z0, foot.heel],
          [sole.y1, sole.z1, foot.toe],
        ] as const) {
          const w = (y - stretch.frame.y) / body.unit_m - 2 * step;
          expect(Math.hypot(w - joint.w, z / body.unit_m - joint.z) * body.unit_m).toBeLessThan(
            wanted > 0.4 ? 1e-3 : 5e-4,
          );
        }
      }
    }
  });
});

/** How far heel or toes, whichever is nearer, are from where they are when the foot stands flat, metres. */
function strayOf(leg: Leg, flat: Leg): number {
  return Math.min(
    Math.hypot(leg.heel.y - flat.heel.y, leg.heel.z - flat.heel.z),
    Math.hypot(leg.toe.y - flat.toe.y, leg.toe.z - flat.toe.z),
  );
}
/** Poses all along a stretch, some between nodes. */
function posesOf(body: Body, stretch: Stretch, perNode = 2): Capsule[][] {
  const poses: Capsule[][] = [];
  for (let node = stretch.from; node <= stretch.to; node += 1 / perNode) poses.push(poseAt(body, stretch, node));
  return poses;
}
function lengthOf(c: Capsule): number {
  return Math.hypot(c.x1 - c.x0, c.y1 - c.y0, c.z1 - c.z0);
}
/** Length of a capsule's axis as seen from the side of the walk. */
function inPlane(c: Capsule, { frame }: Stretch): number {
  return Math.hypot((c.y1 - c.y0) * frame.cos + (c.x1 - c.x0) * frame.sin, c.z1 - c.z0);
}
/** The larger distance between the ends of one capsule at two moments. */
function apart(a: Capsule, b: Capsule): number {
  return Math.max(Math.hypot(a.x0 - b.x0, a.y0 - b.y0, a.z0 - b.z0), Math.hypot(a.x1 - b.x1, a.y1 - b.y1, a.z1 - b.z1));
}
/** Least flexion of both knees, degrees, in space: whatever way the body faces. */
function straightestKnee(body: Body, pose: readonly Capsule[]): number {
  const of = (part: number) => pose[body.limbs.list().findIndex((limb) => limb.part === part)]!;
  return Math.min(
    ...[
      [PART.thighR, PART.shankR],
      [PART.thighL, PART.shankL],
    ].map(([thighPart, shankPart]) => {
      const [a, b] = [of(thighPart!), of(shankPart!)];
      const dot = (a.x1 - a.x0) * (b.x1 - b.x0) + (a.y1 - a.y0) * (b.y1 - b.y0) + (a.z1 - a.z0) * (b.z1 - b.z0);
      return (Math.acos(Math.min(1, dot / (lengthOf(a) * lengthOf(b)))) * 180) / Math.PI;
    }),
  );
}
/** Whether a moment falls into a turn on the spot, where feet are looked at by themselves. */
function within(motion: Motion, moment: Moment): boolean {
  return nodeAt(motion, moment.time_s).stretch.perLimb === true;
}
