/**
 * Dogs and cats against published sizes and gait, measured from posed capsules.
 *
 * Sources, beside each check:
 * - AKC: American Kennel Club breed standards, read in a copy of its breed pages (second-hand).
 * - FCI 166: FCI Standard No. 166, German Shepherd Dog.
 * - Cat: Wikipedia, "Cat" (second-hand).
 * - Preferred gait: Sci. Rep. 6:28825, 2016, Fig. 2 (figure legend).
 * - Usherwood 2018: J. R. Usherwood, B. J. H. Smith, The grazing gait, 2018, legend of Movie S1.
 * - Hildebrand: M. Hildebrand, Science 150:701–708, 1965; J. Morphol. 124:353–360, 1968 (from memory).
 */
import { describe, expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import { petBody } from '../../src/agents/pets/body.js';
import { PET_LIMB } from '../../src/agents/pets/build.js';
import { petThrough } from '../../src/agents/pets/passage.js';
import type { Capsule } from '../../src/agents/motion/motion.js';
import { EVEN } from '../agents/walking.js';
import { pawsOf, petBodyNamed, petNamed, poseAtTime } from '../agents/pets/pets.js';

const OPENING = { width_m: 2, zone_m: 1.5 };
const STEP_S = 2e-3;
/** A paw whose lowest point is nearer to the floor than this stands, metres: it leaves and lands slowly. */
const STANDS_M = 2e-5;

interface Footfalls {
  /** Per leg (fore right, fore left, hind right, hind left), moments of landing and leaving, seconds. */
  readonly landings: readonly (readonly number[])[];
  readonly leavings: readonly (readonly number[])[];
  /** How many paws stand, moment by moment. */
  readonly down: readonly number[];
}

function footfalls(body: Body, step_s = STEP_S): Footfalls {
  const { motion, leave_s } = petThrough(body, OPENING, false, EVEN);
  const landings: number[][] = [[], [], [], []];
  const leavings: number[][] = [[], [], [], []];
  const down: number[] = [];
  let before: boolean[] | undefined;
  for (let t = 0; t < leave_s; t += step_s) {
    const stand = pawsOf(poseAtTime(body, motion, t)).map(({ sole_m }) => sole_m < STANDS_M);
    down.push(stand.filter(Boolean).length);
    stand.forEach((is, leg) => {
      if (before && is !== before[leg]) (is ? landings : leavings)[leg]!.push(t);
    });
    before = stand;
  }
  return { landings, leavings, down };
}

/** Time from one landing of the right hind paw to the next, over the whole walk. */
function strideOf({ landings }: Footfalls): number {
  const hind = landings[2]!;
  return (hind.at(-1)! - hind[0]!) / (hind.length - 1);
}
function mean(values: readonly number[]): number {
  return values.reduce((sum, x) => sum + x, 0) / values.length;
}
/** Shares of the stride in which each leg stands, stance by stance. */
function duties(falls: Footfalls): number[] {
  const stride = strideOf(falls);
  return falls.landings.flatMap((own, leg) =>
    own.flatMap((landing) => {
      const leaving = falls.leavings[leg]!.find((t) => t > landing);
      return leaving === undefined ? [] : [(leaving - landing) / stride];
    }),
  );
}

// At the preferred speed: drawn speeds scatter about it, so middles are compared.
const WALKERS = ['dog-small', 'dog-medium', 'dog-large', 'dog-giant', 'cat'] as const;
const WALKS = WALKERS.map((who) => ({
  who,
  walks: Array.from({ length: 16 }, (_, n) => {
    const pet = petNamed(who, n, 1);
    return { pet, falls: footfalls(petBody(who, n, pet)) };
  }),
}));

describe.each(WALKS)('$who at its preferred speed', ({ walks }) => {
  test('stands for 0.62 m^0.02 of a stride (preferred gait of mammals)', () => {
    const off = walks.map(({ pet, falls }) => mean(duties(falls)) - 0.62 * pet.mass_kg ** 0.02);
    // Scatter of speeds 0.1 × power 0.28 of 0.65 over √16, and classes of 0.01.
    expect(Math.abs(mean(off))).toBeLessThan(0.02);
  });

  test('makes 1.62 m^-0.15 strides a second (preferred gait of mammals)', () => {
    const ratio = walks.map(({ pet, falls }) => 1 / strideOf(falls) / (1.62 * pet.mass_kg ** -0.15));
    expect(mean(ratio)).toBeGreaterThan(0.96);
    expect(mean(ratio)).toBeLessThan(1.04);
  });

  test('sets down left hind, left fore, right hind, right fore, the forepaw 0.15 to 0.25 of a stride after the hind paw of its side (Hildebrand, from memory)', () => {
    for (const { falls } of walks) {
      const stride = strideOf(falls);
      const after = (leg: number, t: number) => (falls.landings[leg]!.find((other) => other > t - 1e-9)! - t) / stride;
      const leftHind = falls.landings[3]![0]!;
      const [foreLeft, hindRight, foreRight] = [after(1, leftHind), after(2, leftHind), after(0, leftHind)];
      expect(foreLeft).toBeGreaterThan(0.15 - 0.015);
      expect(foreLeft).toBeLessThan(0.25 + 0.015);
      // Even left and right: half a stride apart.
      expect(Math.abs(hindRight - 0.5)).toBeLessThan(0.01);
      expect(Math.abs(foreRight - hindRight - foreLeft)).toBeLessThan(0.01);
    }
  });

  test('walks: no paw stands for half of a stride or less (M. K. Struble, A. C. Gibb, Integr. Comp. Biol. 62:1246–1280, 2022, abstract)', () => {
    for (const { falls } of walks) expect(Math.min(...duties(falls))).toBeGreaterThan(0.5);
  });
});

test('masses of 4.5 and 30 kg: 1.29 and 0.97 strides a second, standing 0.64 and 0.66 of each (preferred gait, computed)', () => {
  for (const [who, mass_kg, hertz, duty] of [
    ['cat', 4.5, 1.29, 0.64],
    ['dog-large', 30, 0.97, 0.66],
  ] as const) {
    const near = WALKS.find((group) => group.who === who)!.walks.filter(
      ({ pet }) => Math.abs(pet.mass_kg / mass_kg - 1) < 0.15,
    );
    expect(near.length).toBeGreaterThan(5);
    expect(Math.abs(mean(near.map(({ falls }) => 1 / strideOf(falls))) / hertz - 1)).toBeLessThan(0.05);
    expect(Math.abs(mean(near.flatMap(({ falls }) => duties(falls))) - duty)).toBeLessThan(0.025);
  }
});

test('a walk with duty factor 0.75 and a lag of 0.25 has exactly three feet down at every instant (Usherwood 2018)', () => {
  const pet = { ...petNamed('dog-large', 1), duty: 0.75, lag: 0.25, stride: 1.2 };
  const { down } = footfalls(petBody('dog', 1, pet));
  // At the change of feet itself one is a hair above the floor and another a hair below what counts as standing.
  expect(down.filter((n) => n === 3).length / down.length).toBeGreaterThan(0.93);
  expect(down.every((n) => n >= 2 && n <= 4)).toBe(true);
  const uneven = footfalls(petBody('dog', 1, { ...pet, duty: 0.65 })).down;
  expect(uneven.filter((n) => n === 3).length / uneven.length).toBeLessThan(0.7);
});

describe('sizes', () => {
  const measured = (who: string, n: number, change = {}) => {
    const body = petBodyNamed(who, n, 0.7, change);
    return measure(poseAtTime(body, petThrough(body, OPENING, false, EVEN).motion, 1));
  };
  const many = (who: string) => Array.from({ length: 200 }, (_, n) => measured(who, n).withers_m);

  test.each([
    // AKC: Yorkshire Terrier 0.178 m and up, Beagle to 0.381 m.
    ['dog-small', 0.178, 0.381],
    // AKC: Cocker Spaniel 0.343 m and up, Border Collie to 0.559 m.
    ['dog-medium', 0.343, 0.559],
    // AKC: Labrador Retriever 0.546 m and up, German Shepherd to 0.660 m.
    ['dog-large', 0.546, 0.66],
    // AKC: Great Dane 0.711 to 0.813 m.
    ['dog-giant', 0.711, 0.813],
    // Cat: 0.23 to 0.25 m.
    ['cat', 0.23, 0.25],
  ] as const)('%s: height at the withers from %f to %f m, and all of it', (who, low, high) => {
    const heights = many(who);
    expect(Math.min(...heights)).toBeGreaterThan(low - 1e-3);
    expect(Math.max(...heights)).toBeLessThan(high + 1e-3);
    expect(Math.max(...heights) - Math.min(...heights)).toBeGreaterThan(0.9 * (high - low));
  });

  test('German Shepherds of 0.55 to 0.65 m (FCI 166) are large dogs', () => {
    const inside = many('dog-large').filter((m) => m >= 0.55 && m <= 0.65);
    expect(inside.length / 200).toBeGreaterThan(0.8);
  });

  test('a German Shepherd: trunk 1.10 to 1.17 of the height, head about 0.40 (FCI 166), chest 0.45 to 0.48 (from memory)', () => {
    const dog = measured('dog-large', 1, { withers_m: 0.62 });
    expect(dog.withers_m).toBeCloseTo(0.62, 3);
    expect(dog.trunk_m / 0.62).toBeGreaterThan(1.1);
    expect(dog.trunk_m / 0.62).toBeLessThan(1.17);
    expect(dog.head_m / 0.62).toBeCloseTo(0.4, 1);
    expect(dog.chest_m / 0.62).toBeGreaterThan(0.45);
    expect(dog.chest_m / 0.62).toBeLessThan(0.48);
  });

  test('a cat: 0.46 m from nose to rump, a tail of 0.30 m (Cat)', () => {
    const cat = measured('cat', 1, { withers_m: 0.24 });
    expect(Math.abs(cat.nose_to_rump_m - 0.46)).toBeLessThan(0.03);
    expect(Math.abs(cat.tail_m - 0.3)).toBeLessThan(0.02);
  });

  test('trunks 0.10 to 0.15 m broad for a cat, 0.20 to 0.25 m for a medium dog, 0.30 m or more for a giant one (from memory)', () => {
    expect(Math.abs(measured('cat', 1, { withers_m: 0.24 }).breadth_m - 0.125)).toBeLessThan(0.025);
    expect(Math.abs(measured('dog-medium', 1, { withers_m: 0.46 }).breadth_m - 0.225)).toBeLessThan(0.025);
    expect(measured('dog-giant', 1).breadth_m).toBeGreaterThan(0.3);
  });
});

describe('speeds at the preferred pace', () => {
  const speeds = (who: string) => Array.from({ length: 300 }, (_, n) => petNamed(who, n, 1).speed_mps);
  test('cats walk at 0.54 to 0.74 m/s (BMC Vet. Res. 9:129, 2013, abstract: accepted trials)', () => {
    const cats = speeds('cat');
    expect(cats.filter((v) => v >= 0.54 && v <= 0.74).length / 300).toBeGreaterThan(0.95);
  });
  test('dogs of a Labrador’s size at 0.78 to 0.96 m/s in the middle (Acta Vet. Scand. 2016, doi:10.1186/s13028-016-0265-9, abstract)', () => {
    const middle = mean(speeds('dog-large'));
    expect(middle).toBeGreaterThan(0.78);
    expect(middle).toBeLessThan(0.96);
  });
  test('at 0.9 m/s and more small dogs trot, so their walk is slower (W. T. Kano et al., BMC Vet. Res. 12:2, 2016, abstract)', () => {
    expect(Math.max(...speeds('dog-small'))).toBeLessThan(0.9);
  });
});

function measure(pose: readonly Capsule[]) {
  const of = (limb: number) => pose[limb]!;
  const [chest, loin, head, tail] = [PET_LIMB.chest, PET_LIMB.loin, PET_LIMB.head, PET_LIMB.tail].map(of) as [
    Capsule,
    Capsule,
    Capsule,
    Capsule,
  ];
  const long = (c: Capsule) => Math.hypot(c.x1 - c.x0, c.y1 - c.y0, c.z1 - c.z0);
  const front = Math.max(chest.y0, chest.y1) + chest.radius;
  const rump = Math.min(loin.y0, loin.y1) - loin.radius;
  return {
    withers_m: Math.max(chest.z0, chest.z1) + chest.radius,
    trunk_m: front - rump,
    chest_m: 2 * chest.radius,
    breadth_m: 2 * chest.radius,
    head_m: long(head) + 2 * head.radius,
    nose_to_rump_m: Math.max(head.y0, head.y1) + head.radius - rump,
    tail_m: long(tail),
  };
}
