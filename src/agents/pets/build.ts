/** What a pet's capsules are: their order, the parts they ride on, and the proportions of both species. */
import {
  CAT_HEAD,
  CAT_TAIL,
  CAT_TAIL_LENGTH,
  CAT_TRUNK,
  CHEST_DEPTH,
  DOG_HEAD,
  DOG_TAIL,
  DOG_TAIL_LENGTH,
  DOG_TRUNK,
  HEAD_LENGTH,
  LOIN,
  PET_LEGS,
} from '../figures/pets.js';
import type { LegBuild } from './leg.js';
import { FORE, HIND } from './leg.js';

/** The moving parts of a pet. Chest, loin, neck and head ride on the trunk. */
export const PET_PART = { trunk: 0, tail: 9 } as const;

/** The four legs, in the order of their limbs; upper and lower part of leg i are parts 1 + 2i and 2 + 2i. */
export const PET_LEG_ORDER: readonly { readonly build: LegBuild; readonly fore: boolean; readonly right: boolean }[] = [
  { build: FORE, fore: true, right: true },
  { build: FORE, fore: true, right: false },
  { build: HIND, fore: false, right: true },
  { build: HIND, fore: false, right: false },
];

/** Where the capsules stand among a pet's limbs. */
export const PET_LIMB = { chest: 0, loin: 1, neck: 2, head: 3, firstLeg: 4, tail: 12 } as const;

interface Build {
  /** Length, depth of chest and of loin, how far the croup is below the withers. */
  readonly trunk: {
    readonly length: number;
    readonly chest_depth: number;
    readonly loin_depth: number;
    readonly croup_below: number;
  };
  readonly head: typeof DOG_HEAD.value & { readonly length: number };
  readonly tail: typeof DOG_TAIL.value & { readonly length: number };
}

export const SPECIES: Readonly<Record<'dog' | 'cat', Build>> = {
  dog: {
    trunk: {
      length: DOG_TRUNK.value,
      chest_depth: CHEST_DEPTH.value,
      loin_depth: LOIN.value.dog_depth,
      croup_below: LOIN.value.croup_below,
    },
    head: { ...DOG_HEAD.value, length: HEAD_LENGTH.value },
    tail: { ...DOG_TAIL.value, length: DOG_TAIL_LENGTH.value },
  },
  cat: {
    trunk: {
      length: CAT_TRUNK.value,
      chest_depth: CHEST_DEPTH.value,
      loin_depth: LOIN.value.cat_depth,
      croup_below: LOIN.value.croup_below,
    },
    head: { ...CAT_HEAD.value, length: HEAD_LENGTH.value },
    tail: { ...CAT_TAIL.value, length: CAT_TAIL_LENGTH.value },
  },
};
export type Species = keyof typeof SPECIES;

/** Where shoulder and hip are along the trunk, w from its middle. */
export function jointAlong(species: Species, fore: boolean): number {
  const half = SPECIES[species].trunk.length / 2;
  return fore ? half - PET_LEGS.value.shoulder_in : PET_LEGS.value.hip_in - half;
}
