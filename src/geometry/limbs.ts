/**
 * The capsules of a body, all in one list of numbers.
 *
 * As an object each, with every number in a box of its own, the fifteen of a person took 3 kB scattered over the heap,
 * and making and reading them a quarter of a simulation's time. So hot loops read {@link Limbs.numbers}, and whoever
 * isn't in a hurry asks for a {@link Limb}.
 */

/** A capsule of a body: which part of the motion carries it, constant offsets of both ends and a radius, model units. */
export interface Limb {
  /** Index of the part whose track carries this capsule. */
  readonly part: number;
  readonly al: number;
  readonly aw: number;
  readonly az: number;
  readonly bl: number;
  readonly bw: number;
  readonly bz: number;
  readonly radius: number;
  /** Differs from an earlier limb of the body only in l, so that a beam straight across sees one for both. */
  readonly shadowed: boolean;
}

/** Numbers of a limb in {@link Limbs.numbers}, and where in them which is. */
export const LIMB = 9;
export const PART_OF = 0;
export const AL = 1;
export const AW = 2;
export const AZ = 3;
export const BL = 4;
export const BW = 5;
export const BZ = 6;
export const RADIUS = 7;
/** 1 or 0. */
export const SHADOWED = 8;

export class Limbs {
  /** How many there are. */
  readonly count: number;

  /** @param numbers {@link LIMB} a limb */
  constructor(readonly numbers: readonly number[]) {
    this.count = numbers.length / LIMB;
  }

  static of(limbs: readonly Limb[]): Limbs {
    const maker = new LimbsMaker();
    for (const limb of limbs) maker.add(limb);
    return maker.limbs();
  }

  at(index: number): Limb {
    const { numbers } = this;
    const i = LIMB * index;
    return limbOf(
      numbers[i + PART_OF]!,
      numbers[i + AL]!,
      numbers[i + AW]!,
      numbers[i + AZ]!,
      numbers[i + BL]!,
      numbers[i + BW]!,
      numbers[i + BZ]!,
      numbers[i + RADIUS]!,
      numbers[i + SHADOWED] === 1,
    );
  }

  partOf(index: number): number {
    return this.numbers[LIMB * index + PART_OF]!;
  }

  radiusOf(index: number): number {
    return this.numbers[LIMB * index + RADIUS]!;
  }

  list(): Limb[] {
    return Array.from({ length: this.count }, (_, i) => this.at(i));
  }
}

export function limbOf(
  part: number,
  al: number,
  aw: number,
  az: number,
  bl: number,
  bw: number,
  bz: number,
  radius: number,
  shadowed = false,
): Limb {
  return { part, al, aw, az, bl, bw, bz, radius, shadowed };
}

/** Puts the limbs of a body together without an object for each. */
export class LimbsMaker {
  private readonly numbers: number[] = [];

  put(
    part: number,
    al: number,
    aw: number,
    az: number,
    bl: number,
    bw: number,
    bz: number,
    radius: number,
    shadowed = false,
  ): void {
    this.numbers.push(part, al, aw, az, bl, bw, bz, radius, shadowed ? 1 : 0);
  }

  add({ part, al, aw, az, bl, bw, bz, radius, shadowed }: Limb): void {
    this.put(part, al, aw, az, bl, bw, bz, radius, shadowed);
  }

  limbs(): Limbs {
    return new Limbs(this.numbers);
  }
}
