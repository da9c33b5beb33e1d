/** What one visit does to each watched path: its exact breaks, on the clock. */
import type { Body } from '../agents/body.js';
import { breaksOf } from '../agents/motion/motion.js';
import type { Passage } from '../agents/motion/passage.js';
import type { Visit } from '../agents/visit.js';
import { SECOND_US } from '../engine/time.js';
import type { BeamPath, Shadow } from '../sensors/door-sensors.js';

/** @param hidden limbs that aren't there */
export function shadowOf(
  visit: Visit,
  body: Body,
  passage: Passage,
  paths: readonly BeamPath[],
  hidden?: ReadonlySet<number>,
): Shadow {
  const breaks = paths.map((path) => {
    const own: number[] = [];
    breaksOf(body, passage.motion, path.line, path.clearance, own, hidden);
    for (let i = 0; i < own.length; i++) own[i] = visit.enter_us + (own[i] as number) * SECOND_US;
    return own;
  });
  return { visit: visit.number, body: body.number, breaks };
}
