/**
 * A pet posed limb by limb, for whatever isn't an even walk: stopping, sitting, turning, setting out. Heights at the
 * withers; w from the frame's origin.
 */
import { atan2, cos, sin } from '../../engine/arithmetic.js';
import { smoothstep } from '../../engine/interpolate.js';
import type { Body } from '../body.js';
import { PET_LEGS, PET_STILL } from '../figures/pets.js';
import { PET_LEG_ORDER, PET_LIMB, SPECIES, jointAlong } from './build.js';
import type { Spot } from './leg.js';
import { FORE, HIND, PAW_HEIGHT, legOf, lifted, pawAt } from './leg.js';
import type { PetGait } from './table.js';
import { gaitOf, phaseOf, tailRise, tailSwing, tailTip } from './table.js';

/** Where a paw is, seen by the trunk: l to its right, w along it. */
export interface Paw extends Spot {
  readonly l: number;
}

export interface PetPose {
  /** Where the middle of the standing trunk is along the frame. */
  readonly w: number;
  /** How far the pet has sat down, from 0 to 1. */
  readonly sits: number;
  /** How far the pet has turned to the right on the frame's origin, radians. */
  readonly turned: number;
  /** In the order of the legs; w from the frame's origin, seen along the turned trunk. */
  readonly paws: readonly Paw[];
  /** How far the tail is to the right, radians. */
  readonly tail: number;
}

/** The paw of leg i when it stands under its joint, the trunk's middle at `w`. */
export function standingPaw(body: Body, leg: number, w: number): Paw {
  const { fore, right } = PET_LEG_ORDER[leg] as (typeof PET_LEG_ORDER)[number];
  const aside = PET_LEGS.value.aside;
  return { l: right ? aside : -aside, w: w + jointAlong(gaitOf(body.walks).species, fore), z: PAW_HEIGHT };
}

/** Standing square, the tail at rest. */
export function standingPose(body: Body, w = 0): PetPose {
  return { w, sits: 0, turned: 0, paws: PET_LEG_ORDER.map((_, i) => standingPaw(body, i, w)), tail: 0 };
}

/** Sitting: the hindquarters on the floor, the hind paws drawn up, the tail lying. */
export function sittingPose(body: Body): PetPose {
  const standing = standingPose(body);
  const gait = gaitOf(body.walks);
  const hip = tilted(gait, 0, sittingAngle(body), 0, jointAlong(gait.species, false), HIND.height);
  const paws = standing.paws.map(
    (paw, i): Paw => (PET_LEG_ORDER[i]?.fore ? paw : { l: paw.l, w: hip.w + PET_STILL.value.paws_ahead, z: paw.z }),
  );
  return { ...standing, sits: 1, paws };
}

/** The pose of a walk at a phase of the right hind leg, the trunk's middle at `w`: as in the table, at its nodes. */
export function walkingPose(body: Body, phase: number, w: number): PetPose {
  const gait = gaitOf(body.walks);
  const paws = PET_LEG_ORDER.map((_, i): Paw => {
    const paw = pawAt(gait.stride, gait.duty, phaseOf(gait, i, phase));
    const stands = standingPaw(body, i, w);
    return { l: stands.l, w: stands.w + paw.w, z: paw.z };
  });
  return { w, sits: 0, turned: 0, paws, tail: tailSwing(gait, phase) };
}

/** Shares of the time in which each leg moves, from and to, in the order of the legs; null for one that stays. */
type Window = readonly [number, number] | null;
export type Windows = readonly [Window, Window, Window, Window];

/** Between two poses that face the same way: the trunk at `w`, each paw that moves lifted within its window. */
export function between(from: PetPose, to: PetPose, w: number, windows: Windows, t: number): PetPose {
  const paws = from.paws.map((paw, i): Paw => {
    const goal = to.paws[i] as Paw;
    const window = windows[i];
    // What has nowhere to go stays to the last bit.
    if (!window) return paw;
    const u = Math.min(1, Math.max(0, (t - window[0]) / (window[1] - window[0])));
    const q = smoothstep(u);
    return { l: paw.l, w: paw.w + (goal.w - paw.w) * q, z: paw.z + (goal.z - paw.z) * q + lifted(u) };
  });
  return { w, sits: 0, turned: 0, paws, tail: from.tail + (to.tail - from.tail) * smoothstep(t) };
}

/** Both ends of a limb, offsets included. */
export interface LimbEnds {
  readonly a: Paw;
  readonly b: Paw;
}

/** Ends of limb `index` of a pet's body in a pose. */
export function limbEnds(body: Body, pose: PetPose, index: number): LimbEnds {
  const { a, b } = facingAhead(body, pose, index);
  return pose.turned === 0 ? { a, b } : { a: spun(a, pose.turned), b: spun(b, pose.turned) };
}

function facingAhead(body: Body, pose: PetPose, index: number): LimbEnds {
  const gait = gaitOf(body.walks);
  const limb = body.limbs.at(index);
  const lean = pose.sits === 0 ? 0 : pose.sits * sittingAngle(body);
  if (index < PET_LIMB.neck) {
    return { a: tilted(gait, pose.w, lean, 0, limb.aw, limb.az), b: tilted(gait, pose.w, lean, 0, limb.bw, limb.bz) };
  }
  if (index === PET_LIMB.tail) {
    const root = tilted(gait, pose.w, lean, limb.al, limb.aw, limb.az);
    const { length } = SPECIES[gait.species].tail;
    const up = tailRise(gait);
    const rise = pose.sits === 0 ? up : up + pose.sits * (lyingTail(body) - up);
    const tip = tailTip(length, rise, pose.tail);
    return { a: root, b: { l: root.l + tip.l, w: root.w + tip.w, z: root.z + tip.z } };
  }
  if (index < PET_LIMB.firstLeg) {
    // Head and neck are held as they are while the trunk behind them tilts.
    return {
      a: { l: 0, w: pose.w + limb.aw, z: limb.az },
      b: { l: 0, w: pose.w + limb.bw, z: limb.bz },
    };
  }
  const leg = (index - PET_LIMB.firstLeg) >> 1;
  const { build, fore } = PET_LEG_ORDER[leg] as (typeof PET_LEG_ORDER)[number];
  const joint = tilted(gait, pose.w, lean, limb.al, jointAlong(gait.species, fore), build.height);
  const paw = pose.paws[leg] as Paw;
  const posed = legOf(build, joint, paw);
  const middle = { l: (joint.l + paw.l) / 2, ...posed.middle };
  return (index - PET_LIMB.firstLeg) % 2 === 0
    ? { a: { l: joint.l, ...posed.joint }, b: middle }
    : { a: middle, b: paw };
}

/** A place on the trunk, which tilts about the shoulders as the pet sits down. */
function tilted({ species }: PetGait, w: number, lean: number, l: number, aw: number, az: number): Paw {
  if (lean === 0) return { l, w: w + aw, z: az };
  const along = jointAlong(species, true);
  const dw = aw - along;
  const dz = az - FORE.height;
  const c = cos(lean);
  const s = sin(lean);
  return { l, w: w + along + dw * c - dz * s, z: FORE.height + dw * s + dz * c };
}

/** By how much the trunk tilts until the loin's end touches the floor, radians. */
function sittingAngle(body: Body): number {
  const rump = body.limbs.at(PET_LIMB.loin);
  const { species } = gaitOf(body.walks);
  const dw = rump.aw - jointAlong(species, true);
  const dz = rump.az - FORE.height;
  // FORE.height + dw·sin + dz·cos = radius, with the rump behind: dw < 0.
  const long = Math.sqrt(dw * dw + dz * dz);
  const down = (FORE.height - rump.radius) / long;
  return atan2(down, Math.sqrt(1 - down * down)) - atan2(-dz, -dw);
}

/** Rise of the tail of a sitting pet, radians: its tip lies on the floor. */
function lyingTail(body: Body): number {
  const gait = gaitOf(body.walks);
  const tail = body.limbs.at(PET_LIMB.tail);
  const root = tilted(gait, 0, sittingAngle(body), 0, tail.aw, tail.az);
  const down = (tail.radius - root.z) / SPECIES[gait.species].tail.length;
  return atan2(down, Math.sqrt(1 - down * down));
}

/** Turned to the right about the frame's origin. */
export function spun({ l, w, z }: Paw, angle: number): Paw {
  const c = cos(angle);
  const s = sin(angle);
  return { l: l * c + w * s, w: w * c - l * s, z };
}
