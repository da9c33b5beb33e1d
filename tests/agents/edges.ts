/** Exact edges held against the stepper's (tests/geometry/stepper.ts), for bodies of other shapes. */
import type { Body } from '../../src/agents/body.js';
import type { Capsule } from '../../src/agents/motion/motion.js';
import { breaksOf, poseAt } from '../../src/agents/motion/motion.js';
import type { Passage } from '../../src/agents/motion/passage.js';
import type { BeamLine } from '../../src/geometry/beam-line.js';
import { GRID_S, marginOf, steppedEdges } from '../geometry/stepper.js';

/** A level beam straight across. */
export function across(at_m: number, height_m: number, width_m = 0.9): BeamLine {
  return { from: { x: 0, y: at_m, z: height_m }, to: { x: width_m, y: at_m, z: height_m } };
}

export function exactBreaks(body: Body, passage: Passage, line: BeamLine): number[] {
  const out: number[] = [];
  breaksOf(body, passage.motion, line, () => 0, out);
  return out;
}

/**
 * Edges that only one of the two sees: of the stepper's, those without an exact one within a grid step before them; of the
 * exact ones, those that no grid point shows and that do not belong to a break or a gap shorter than two grid steps.
 */
export function disagreements(body: Body, passage: Passage, line: BeamLine, fastest_mps = 12): string[] {
  const exact = exactBreaks(body, passage, line);
  const stepped = steppedEdges(
    marginOf(body, passage.motion, line, () => 0),
    passage.leave_s,
    fastest_mps,
  );
  const near = (a: number, b: number) => a > b - GRID_S - 1e-5 && a < b + 1e-5;
  const free = new Set(exact.keys());
  const wrong: string[] = [];
  stepped.forEach((time, i) => {
    const partner = exact.findIndex((edge, j) => free.has(j) && i % 2 === j % 2 && near(edge, time));
    if (partner >= 0) free.delete(partner);
    else wrong.push(`stepper only, ${time}`);
  });
  for (const j of free) {
    const short = [j - 1, j].some((k) => (exact[k + 1] ?? Infinity) - (exact[k] ?? -Infinity) <= 2 * GRID_S);
    if (!short) wrong.push(`exact only, ${exact[j]}`);
  }
  return wrong;
}

/** Largest jump of a capsule's end from one stretch of motion to the next, metres. */
export function largestJump(body: Body, { motion }: Passage): number {
  let most = 0;
  for (let i = 1; i < motion.length; i++) {
    const [before, after] = [motion[i - 1]!, motion[i]!];
    most = Math.max(most, Math.abs(after.timeAt(after.from) - before.timeAt(before.to)));
    const ends = poseAt(body, before, before.to);
    poseAt(body, after, after.from).forEach((capsule, k) => (most = Math.max(most, apart(capsule, ends[k]!))));
  }
  return most;
}

function apart(a: Capsule, b: Capsule): number {
  return Math.max(Math.hypot(a.x0 - b.x0, a.y0 - b.y0, a.z0 - b.z0), Math.hypot(a.x1 - b.x1, a.y1 - b.y1, a.z1 - b.z1));
}
