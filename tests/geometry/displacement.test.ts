/**
 * What the search leaps by: how far a limb can have moved from one node to a later one. Each of its three bounds is held
 * against posed capsules, sampled densely, for people of all ages in every passage. Also: no point of a body is as fast
 * as the stepper of edges-against-stepper.test.ts takes for granted.
 */
import { describe, expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import type { Capsule, Stretch } from '../../src/agents/motion/motion.js';
import { poseAt } from '../../src/agents/motion/motion.js';
import { linger, through, turnBack } from '../../src/agents/motion/passage.js';
import type { Walker } from '../../src/agents/schema.js';
import { drawBody } from '../../src/agents/walkers.js';
import { Stream } from '../../src/engine/stream.js';
import type { LimbTrack, NodeSpan } from '../../src/geometry/track.js';
import { AHEAD, FASTEST, MOVED, PACE, PER_PERIOD, STRIDE } from '../../src/geometry/track.js';
import { FASTEST_MPS } from './stepper.js';
import { howMany } from '../how-many.js';

const root = Stream.root('displacement');
const OPENING = { width_m: 0.9, zone_m: 1.2 };
const PEOPLE = howMany(24, 400);
/** Samples per cell between two nodes. */
const DENSE = 4;

interface Sampled {
  readonly body: Body;
  readonly stretch: Stretch;
  /** Every DENSE-th is at a node. */
  readonly poses: readonly Capsule[][];
  readonly first: number;
}
const SAMPLED: readonly Sampled[] = Array.from({ length: PEOPLE }, (_, n) => {
  const walker: Walker = { kind: 'people', ages_y: [2, 90], women_share: 0.5, with_infant: n % 4 === 0 };
  const body = drawBody('anybody', walker, n, OPENING, 0.4 + 0.04 * (n % 24), root.nth(n));
  return [through, turnBack, linger].flatMap((passage) =>
    passage(body, OPENING, n % 2 === 0, root.nth(n).nth(1)).motion.map((stretch) => {
      const [first, last] = [Math.ceil(stretch.from), Math.floor(stretch.to)];
      // A long stay is standing all the same.
      const cells = Math.min(last - first, 200);
      const poses = Array.from({ length: cells * DENSE + 1 }, (_, i) => poseAt(body, stretch, first + i / DENSE));
      return { body, stretch, poses, first };
    }),
  );
}).flat();

/** The sum of movements up to a node, from the beginning of the first period. */
function movedBy({ ends, whole }: LimbTrack, { nodes, advance }: NodeSpan, node: number): number {
  const turn = advance === 0 ? 0 : Math.floor(node / nodes);
  return (ends[(node - turn * nodes) * STRIDE + MOVED] as number) + turn * whole[PER_PERIOD]!;
}

describe('bounds of movement', () => {
  test('no end of a limb moves further than the sums, the greatest movement and the pace ahead allow', () => {
    let tightest = 0;
    const beyond = { sum: -Infinity, fastest: -Infinity, pace: -Infinity };
    for (const { body, stretch, poses, first } of SAMPLED) {
      const { span } = stretch.tracks;
      body.limbs.list().forEach((limb, i) => {
        const track = stretch.tracks.part(stretch.perLimb ? i : limb.part);
        for (let k = 0; k + DENSE < poses.length; k += DENSE) {
          const node = first + k / DENSE;
          const inPeriod = span.advance === 0 ? node : ((node % span.nodes) + span.nodes) % span.nodes;
          const pace = track.ends[inPeriod * STRIDE + PACE] as number;
          for (const cells of [1, 2, 5, AHEAD]) {
            const end = k + cells * DENSE;
            if (end >= poses.length) break;
            let moved = 0;
            for (let s = k + 1; s <= end; s += cells)
              moved = Math.max(moved, apart(poses[k]![i]!, poses[s]![i]!) / body.unit_m);
            const sum = movedBy(track, span, node + cells) - movedBy(track, span, node);
            beyond.sum = Math.max(beyond.sum, moved - sum);
            beyond.fastest = Math.max(beyond.fastest, moved - cells * track.whole[FASTEST]!);
            beyond.pace = Math.max(beyond.pace, moved - cells / pace);
            if (sum > 1e-3) tightest = Math.max(tightest, moved / sum);
          }
        }
      });
    }
    // Sums are kept in single precision: 2e-6 model units are some 3 µm.
    expect(beyond.sum).toBeLessThanOrEqual(2e-6);
    expect(beyond.fastest).toBeLessThanOrEqual(0);
    expect(beyond.pace).toBeLessThanOrEqual(0);
    // A bound that is never nearly reached would not be tested by this.
    expect(tightest).toBeGreaterThan(0.99);
  });

  test(`nobody's limbs reach ${FASTEST_MPS} m/s`, () => {
    let fastest = 0;
    for (const { stretch, poses, first } of SAMPLED) {
      for (let k = 1; k < poses.length; k++) {
        const seconds = stretch.timeAt(first + k / DENSE) - stretch.timeAt(first + (k - 1) / DENSE);
        poses[k]!.forEach((capsule, i) => {
          fastest = Math.max(fastest, apart(capsule, poses[k - 1]![i]!) / seconds);
        });
      }
    }
    expect(fastest).toBeGreaterThan(2);
    expect(fastest).toBeLessThan(0.75 * FASTEST_MPS);
  });
});

function apart(a: Capsule, b: Capsule): number {
  return Math.max(
    Math.sqrt((a.x0 - b.x0) ** 2 + (a.y0 - b.y0) ** 2 + (a.z0 - b.z0) ** 2),
    Math.sqrt((a.x1 - b.x1) ** 2 + (a.y1 - b.y1) ** 2 + (a.z1 - b.z1) ** 2),
  );
}
