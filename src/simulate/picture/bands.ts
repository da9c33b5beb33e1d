/** One body's cross-sections at the height of beams, instant by instant. */
import { Posed } from '../../agents/motion/posed.js';
import { type Plane, planeOf, sectionOf } from '../../geometry/section.js';
import type { BeamPath } from '../../sensors/door-sensors.js';
import { CAPSULE } from '../../sensors/ranger.js';
import type { Band } from '../../score/pictures.js';
import { partOf } from '../body-parts.js';
import type { Arrival } from '../parties.js';

/** What is farther from the door plane is not drawn. */
const FARTHEST_M = 0.9;

interface Grown {
  readonly from: number;
  readonly low_mm: number[];
  readonly high_mm: number[];
}

/**
 * @param path a beam: sections are by the plane it lies in, as large as what breaks it
 * @param start_us of the picture @param step_us between instants @param steps how many
 */
export function bandsOf(
  { visit, body, passage }: Arrival,
  path: BeamPath,
  { start_us, step_us, steps }: { readonly start_us: number; readonly step_us: number; readonly steps: number },
): Band[] {
  const plane = planeOf(path.line);
  const posed = new Posed(body, passage.motion);
  const capsules = new Float64Array(CAPSULE * body.limbs.count);
  const open: (Grown | null)[] = Array.from({ length: body.limbs.count }, () => null);
  const bands: Band[] = [];
  const close = (limb: number): void => {
    const grown = open[limb];
    if (grown) bands.push({ part: partOf(body, limb), ...grown });
    open[limb] = null;
  };
  for (let n = 0; n < steps; n++) {
    const time_us = start_us + n * step_us;
    const there = time_us >= visit.enter_us && time_us <= visit.leave_us;
    if (there) posed.into((time_us - visit.enter_us) / 1e6, capsules, 0, null);
    for (let limb = 0; limb < body.limbs.count; limb++) {
      const section = there ? sectionAt(plane, path, capsules, limb) : null;
      if (section === null || section[0] > FARTHEST_M || section[1] < -FARTHEST_M) {
        close(limb);
        continue;
      }
      const grown = (open[limb] ??= { from: n, low_mm: [], high_mm: [] });
      // Adding 0 makes a plain zero of a negative one.
      grown.low_mm.push(Math.round(section[0] * 1000) + 0);
      grown.high_mm.push(Math.round(section[1] * 1000) + 0);
    }
  }
  for (let limb = 0; limb < body.limbs.count; limb++) close(limb);
  return bands;
}

function sectionAt(plane: Plane, { clearance }: BeamPath, capsules: Float64Array, limb: number) {
  const at = CAPSULE * limb;
  const end = (i: number) => plane({ x: capsules[at + i]!, y: capsules[at + i + 1]!, z: capsules[at + i + 2]! });
  const radius = capsules[at + 6]!;
  return sectionOf(end(0), end(3), radius + clearance(radius));
}
