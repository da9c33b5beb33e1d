/**
 * The body of a dog or a cat: 13 capsules. Chest and loin lie along the walk, neck and head before them; four legs of
 * two parts; a tail. Units: heights at the withers.
 */
import type { Limb } from '../../geometry/limbs.js';
import type { PoseTracks } from '../../geometry/track.js';
import { EXTENT_A, EXTENT_B, extentOf } from '../../geometry/track.js';
import { Limbs, limbOf } from '../../geometry/limbs.js';
import { PET_LEGS } from '../figures/pets.js';
import type { Body } from '../body.js';
import { PET_LEG_ORDER, PET_PART, SPECIES, jointAlong } from './build.js';
import type { Pet } from './pet.js';
import { petTable } from './table.js';

/** A pet's body. Its `stature_m` is to the top of its head; nobody is aboard. */
export function petBody(who: string, number: number, pet: Pet): Body {
  const { trunk, head, tail } = SPECIES[pet.species];
  const half = trunk.length / 2;
  const chest = trunk.chest_depth / 2;
  const loin = trunk.loin_depth / 2;
  const onTrunk = (aw: number, az: number, bw: number, bz: number, radius: number): Limb =>
    limbOf(PET_PART.trunk, 0, aw, az, 0, bw, bz, radius);
  const nose = half + head.ahead - head.radius;
  const skull = nose - (head.length - 2 * head.radius);
  const croup = 1 - trunk.croup_below - loin;
  const limbs: Limb[] = [
    onTrunk(0, 1 - chest, half - chest, 1 - chest, chest),
    onTrunk(loin - half, croup, 0, croup, loin),
    onTrunk(half - chest, 1 - head.neck_radius, skull, head.height, head.neck_radius),
    onTrunk(skull, head.height, nose, head.height - head.radius / 2, head.radius),
  ];
  const { aside, upper_radius, lower_radius } = PET_LEGS.value;
  PET_LEG_ORDER.forEach(({ fore, right }, i) => {
    const l = right ? aside : -aside;
    const w = jointAlong(pet.species, fore);
    limbs.push(limbOf(1 + 2 * i, l, w, 0, l, w, 0, upper_radius));
    limbs.push(limbOf(2 + 2 * i, l, w, 0, l, w, 0, lower_radius));
  });
  const root = { w: tail.radius - half, z: 1 - trunk.croup_below - 2 * tail.radius };
  limbs.push(limbOf(PET_PART.tail, 0, root.w, root.z, 0, root.w, root.z, tail.radius));
  return {
    sort: 'pet',
    who,
    number,
    persons: 0,
    stature_m: (head.height + head.radius) * pet.withers_m,
    breadth_m: trunk.chest_depth * pet.withers_m,
    unit_m: pet.withers_m,
    speed_mps: pet.speed_mps,
    step: 0,
    elbow_deg: 0,
    walks: petTable(pet),
    limbs: Limbs.of(limbs),
  };
}

/** How far any part of a walking pet is from the middle of its trunk along the walk, metres. */
export function petReach({ limbs, unit_m, walks }: Body): number {
  let most = 0;
  for (const { part, aw, bw, radius } of limbs.list()) {
    const track = (walks as PoseTracks).part(part);
    const a = extentOf(track, EXTENT_A);
    const b = extentOf(track, EXTENT_B);
    most = Math.max(most, radius - a.w0 - aw, radius + a.w1 + aw, radius - b.w0 - bw, radius + b.w1 + bw);
  }
  return most * unit_m;
}
