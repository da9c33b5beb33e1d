/** What holds for every posed pet: planted paws stay, nothing jumps, legs keep their lengths, nobody sinks into the floor. */
import { describe, expect, test } from 'vitest';
import type { Body } from '../../../src/agents/body.js';
import { PET_LIMB } from '../../../src/agents/pets/build.js';
import type { Capsule, Stretch } from '../../../src/agents/motion/motion.js';
import { poseAt } from '../../../src/agents/motion/motion.js';
import type { Opening, Passage } from '../../../src/agents/motion/passage.js';
import { Stream } from '../../../src/engine/stream.js';
import { PET_NAMES, PET_PASSAGES, pawsOf, petBodyNamed, poseAtTime } from './pets.js';

const OPENING = { width_m: 0.9, zone_m: 1.2 };

interface Case {
  readonly name: string;
  readonly body: Body;
  readonly passage: Passage;
}
/** Every pet doing everything, at the pace of homes and of walkways, both ways. */
function casesIn(opening: Opening): readonly Case[] {
  return PET_NAMES.flatMap((who) =>
    (['through', 'turn-back', 'linger'] as const).flatMap((kind) =>
      [0, 1, 2, 3].map((n) => {
        const body = petBodyNamed(who, n, n < 2 ? 0.7 : 1);
        const passage = PET_PASSAGES[kind](body, opening, n % 2 === 1, Stream.root('visit').child(who, kind).nth(n));
        return { name: `${who} ${kind} ${n}`, body, passage };
      }),
    ),
  );
}
const CASES = casesIn(OPENING);

describe('a pet’s paws', () => {
  test('one that touches the floor stays where it is, walking, stopping, sitting, turning and setting out', () => {
    let planted = 0;
    for (const { name, body, passage } of CASES) {
      let slid = 0;
      for (const stretch of passage.motion) {
        let before: ReturnType<typeof pawsOf> | undefined;
        for (const pose of nodesOf(body, stretch)) {
          const paws = pawsOf(pose);
          paws.forEach((paw, i) => {
            const was = before?.[i];
            // A ten-millionth of a metre off the floor is in the air already.
            if (!was || was.sole_m > 2e-7 || paw.sole_m > 2e-7) return;
            planted++;
            slid = Math.max(slid, Math.hypot(paw.x - was.x, paw.y - was.y));
          });
          before = paws;
        }
      }
      expect(slid, name).toBeLessThan(2e-6);
    }
    expect(planted).toBeGreaterThan(10_000);
  });

  test('at every moment two or more stand', () => {
    let fewest = 4;
    for (const { body, passage } of CASES)
      for (const stretch of passage.motion)
        for (const pose of nodesOf(body, stretch))
          fewest = Math.min(fewest, pawsOf(pose).filter(({ sole_m }) => sole_m < 1e-6).length);
    expect(fewest).toBe(2);
  });
});

describe('a pet’s body', () => {
  test('nothing jumps where one stretch ends and the next begins', () => {
    for (const { name, body, passage } of CASES) {
      for (let i = 1; i < passage.motion.length; i++) {
        const [before, after] = [passage.motion[i - 1]!, passage.motion[i]!];
        expect(after.timeAt(after.from)).toBeCloseTo(before.timeAt(before.to), 9);
        const ends = poseAt(body, before, before.to);
        const starts = poseAt(body, after, after.from);
        ends.forEach((c, k) => expect(apart(c, starts[k]!), `${name}, stretch ${i}, limb ${k}`).toBeLessThan(4e-6));
      }
    }
  });

  test('and nothing leaps within one: no part is ever quicker than 8 m/s', () => {
    for (const { name, body, passage } of CASES)
      for (const stretch of passage.motion) {
        let quickest = 0;
        let before: { pose: Capsule[]; time_s: number } | undefined;
        for (let node = stretch.from; node <= stretch.to; node++) {
          const now = { pose: poseAt(body, stretch, node), time_s: stretch.timeAt(node) };
          if (before) {
            const { pose, time_s } = before;
            const moved = Math.max(...now.pose.map((c, k) => apart(c, pose[k]!)));
            quickest = Math.max(quickest, moved / (now.time_s - time_s));
          }
          before = now;
        }
        expect(quickest, name).toBeLessThan(8);
      }
  });

  // In a turn paws lag behind the trunk to the side, which the legs, bent in the plane of walking, don't know of.
  test('legs keep their lengths to a thousandth of the height, to a twentieth in a turn on the spot', () => {
    for (const { name, body, passage } of casesIn({ width_m: 3, zone_m: 1.2 })) {
      const turn = passage.cross_s === null ? passage.motion.length - 3 : -1;
      const built = poseAt(body, passage.motion[0]!, 0).map(lengthOf);
      passage.motion.forEach((stretch, s) => {
        let off = 0;
        for (const pose of nodesOf(body, stretch))
          for (let k: number = PET_LIMB.firstLeg; k < PET_LIMB.tail; k++)
            off = Math.max(off, Math.abs(lengthOf(pose[k]!) - built[k]!) / body.unit_m);
        expect(off, `${name}, stretch ${s}`).toBeLessThan(s === turn ? 0.05 : 1e-3);
      });
    }
  });

  test('nobody sinks into the floor', () => {
    for (const { name, body, passage } of CASES)
      for (const stretch of passage.motion)
        for (const pose of nodesOf(body, stretch))
          expect(Math.min(...pose.map((c) => Math.min(c.z0, c.z1) - c.radius)), name).toBeGreaterThan(-1e-4);
  });

  test('nothing of a pet that turns between the jambs is in them', () => {
    for (const { name, body, passage } of CASES.filter(({ name: n }) => n.includes('turn-back'))) {
      const turn = passage.motion.at(-3)!;
      for (let node = 0.2 * turn.to; node < 0.8 * turn.to; node++)
        for (const c of poseAt(body, turn, node)) {
          expect(Math.min(c.x0, c.x1) - c.radius, name).toBeGreaterThan(-1e-5);
          expect(Math.max(c.x0, c.x1) + c.radius, name).toBeLessThan(OPENING.width_m + 1e-5);
        }
    }
  });

  test('sitting, its hindquarters are on the floor and its head is no lower than before', () => {
    for (const { body, passage } of CASES.filter(({ name }) => name.includes('linger'))) {
      const [walks, sitting] = [passage.motion[0]!, passage.motion[3]!];
      const before = poseAt(body, walks, walks.to);
      const pose = poseAt(body, sitting, (sitting.from + sitting.to) / 2);
      const loin = pose[PET_LIMB.loin]!;
      expect(Math.abs(loin.z0 - loin.radius)).toBeLessThan(1e-4);
      const tail = pose[PET_LIMB.tail]!;
      expect(Math.abs(tail.z1 - tail.radius)).toBeLessThan(1e-4);
      expect(pose[PET_LIMB.head]!.z0).toBeGreaterThanOrEqual(before[PET_LIMB.head]!.z0 - 1e-6);
    }
  });

  test('the middle of the trunk passes the door plane at the moment that is called the crossing', () => {
    let crossings = 0;
    for (const { name, body, passage } of CASES) {
      if (passage.cross_s === null) continue;
      crossings++;
      const loin = poseAtTime(body, passage.motion, passage.cross_s)[PET_LIMB.loin]!;
      // The loin's front end is the middle of the trunk.
      expect(Math.abs(loin.y1), name).toBeLessThan(1e-4);
    }
    expect(crossings).toBeGreaterThan(20);
  });

  test('going backward is the same walk turned half round, to the last bit', () => {
    for (const who of PET_NAMES) {
      const body = petBodyNamed(who, 7);
      for (const kind of ['through', 'turn-back', 'linger'] as const) {
        const chance = Stream.root('mirror').child(who, kind);
        const ahead = PET_PASSAGES[kind](body, OPENING, false, chance);
        const back = PET_PASSAGES[kind](body, OPENING, true, chance);
        expect(back.leave_s).toBe(ahead.leave_s);
        expect(back.cross_s).toBe(ahead.cross_s);
        ahead.motion.forEach((stretch, i) => {
          const other = back.motion[i]!;
          const [a, b] = [poseAt(body, stretch, stretch.from), poseAt(body, other, other.from)];
          a.forEach((c, k) => {
            expect(b[k]!.x0).toBeCloseTo(OPENING.width_m - c.x0, 12);
            expect(b[k]!.y0).toBeCloseTo(-c.y0, 12);
            expect(b[k]!.z1).toBe(c.z1);
          });
        });
      }
    }
  });

  test('a visit begins and ends with every part beyond what a person’s limbs reach from the zone’s ends', () => {
    for (const { name, body, passage } of CASES) {
      const outermost = OPENING.zone_m - 0.6;
      for (const time of [0, passage.leave_s]) {
        const pose = poseAtTime(body, passage.motion, time);
        const nearest = Math.min(...pose.map((c) => Math.min(Math.abs(c.y0), Math.abs(c.y1)) - c.radius));
        expect(nearest, name).toBeGreaterThan(outermost - 0.03);
      }
    }
  });
});

function nodesOf(body: Body, stretch: Stretch): Capsule[][] {
  const poses: Capsule[][] = [];
  const step = Math.max(1, Math.floor((stretch.to - stretch.from) / 400));
  for (let node = Math.ceil(stretch.from); node <= stretch.to; node += step) poses.push(poseAt(body, stretch, node));
  return poses;
}
function lengthOf(c: Capsule): number {
  return Math.hypot(c.x1 - c.x0, c.y1 - c.y0, c.z1 - c.z0);
}
function apart(a: Capsule, b: Capsule): number {
  return Math.max(Math.hypot(a.x0 - b.x0, a.y0 - b.y0, a.z0 - b.z0), Math.hypot(a.x1 - b.x1, a.y1 - b.y1, a.z1 - b.z1));
}
