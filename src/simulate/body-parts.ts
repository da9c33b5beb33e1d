/** Which part of a body a beam meets: the same passage, with all other parts taken away. */
import type { Body } from '../agents/body.js';
import { HEAD_LIMBS } from '../agents/body.js';
import { PART } from '../agents/gait/parts.js';
import { PET_LIMB } from '../agents/pets/build.js';
import { breaksOf } from '../agents/motion/motion.js';
import type { BeamPath } from '../sensors/door-sensors.js';
import type { BodyPart } from './fact-types.js';
import type { Arrival } from './parties.js';
import { totalLength } from './stretches.js';

const PART_NAMES: Readonly<Record<number, BodyPart>> = {
  [PART.trunk]: 'trunk',
  [PART.thighR]: 'thigh',
  [PART.thighL]: 'thigh',
  [PART.shankR]: 'shank',
  [PART.shankL]: 'shank',
  [PART.footR]: 'foot',
  [PART.footL]: 'foot',
  [PART.upperArmR]: 'arm',
  [PART.upperArmL]: 'arm',
  [PART.forearmR]: 'arm',
  [PART.forearmL]: 'arm',
  [PART.carriage]: 'load',
};

/** The part that a capsule of a body belongs to. What is carried and the arms that hold it count as trunk. */
export function partOf(body: Body, limb: number): BodyPart {
  if (body.sort === 'pet') return petPartOf(limb);
  if (body.sort !== 'person') return 'rod';
  if (HEAD_LIMBS.includes(limb)) return 'head';
  return PART_NAMES[body.limbs.partOf(limb)] ?? 'trunk';
}

/** Of a pet: chest and loin, then neck and head, then two parts of each leg, then the tail. */
function petPartOf(limb: number): BodyPart {
  if (limb < PET_LIMB.neck) return 'trunk';
  if (limb < PET_LIMB.firstLeg) return 'head';
  if (limb === PET_LIMB.tail) return 'tail';
  return (limb - PET_LIMB.firstLeg) % 2 === 0 ? 'thigh' : 'shank';
}

/** When a body breaks a path, seconds since its visit began: [start, end, start, end, …]. */
export function trueBreaks({ body, passage }: Arrival, path: BeamPath, only?: BodyPart): number[] {
  // All stay in their places: motions that hold whole limbs know them by number.
  const hidden =
    only && new Set(Array.from({ length: body.limbs.count }, (_, i) => i).filter((i) => partOf(body, i) !== only));
  const breaks: number[] = [];
  breaksOf(body, passage.motion, path.line, path.clearance, breaks, hidden);
  return breaks;
}

/** How long each part keeps a path broken, as a share of all the time it is broken, summed over the visits given. */
export function partShares(arrivals: readonly Arrival[], path: BeamPath): { part: BodyPart; share: number }[] {
  const total = arrivals.reduce((sum, arrival) => sum + totalLength(trueBreaks(arrival, path)), 0);
  if (total === 0) return [];
  const parts = new Set(
    arrivals.flatMap(({ body }) => Array.from({ length: body.limbs.count }, (_, i) => partOf(body, i))),
  );
  return [...parts]
    .map((part) => ({
      part,
      share: arrivals.reduce((sum, arrival) => sum + totalLength(trueBreaks(arrival, path, part)), 0) / total,
    }))
    .filter(({ share }) => share > 0)
    .toSorted((a, b) => b.share - a.share);
}
