/** Pets as tests see them: drawn, posed, their paws read from posed capsules. */
import { petBody } from '../../../src/agents/pets/body.js';
import { PET_LIMB } from '../../../src/agents/pets/build.js';
import { petLinger, petThrough, petTurnBack } from '../../../src/agents/pets/passage.js';
import type { Pet } from '../../../src/agents/pets/pet.js';
import { drawPet } from '../../../src/agents/pets/pet.js';
import type { Body } from '../../../src/agents/body.js';
import type { Capsule, Motion } from '../../../src/agents/motion/motion.js';
import { nodeAt, poseAt } from '../../../src/agents/motion/motion.js';
import type { PetWalker } from '../../../src/agents/schema.js';
import { BUILT_IN_WALKERS } from '../../../src/agents/schema.js';
import { Stream } from '../../../src/engine/stream.js';

export const PET_NAMES = ['dog-small', 'dog-medium', 'dog-large', 'dog-giant', 'cat'] as const;
export const PET_PASSAGES = { through: petThrough, 'turn-back': petTurnBack, linger: petLinger } as const;

export function petNamed(who: string, n: number, homePace = 0.7, change: Partial<PetWalker> = {}): Pet {
  const walker = { ...BUILT_IN_WALKERS[who], ...change } as PetWalker;
  return drawPet(walker, Stream.root('pets').child(who).nth(n), homePace);
}

export function petBodyNamed(who: string, n: number, homePace = 0.7, change: Partial<PetWalker> = {}): Body {
  return petBody(who, n, petNamed(who, n, homePace, change));
}

/** The paws in a pose, in the order fore right, fore left, hind right, hind left: place of each and its lowest point's height. */
export function pawsOf(pose: readonly Capsule[]): { x: number; y: number; sole_m: number }[] {
  return [0, 1, 2, 3].map((leg) => {
    const lower = pose[PET_LIMB.firstLeg + 2 * leg + 1] as Capsule;
    return { x: lower.x1, y: lower.y1, sole_m: lower.z1 - lower.radius };
  });
}

export function poseAtTime(body: Body, motion: Motion, time_s: number): Capsule[] {
  const { stretch, node } = nodeAt(motion, time_s);
  return poseAt(body, stretch, node);
}
