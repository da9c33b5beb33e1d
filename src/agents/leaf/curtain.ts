/**
 * A curtain beside the opening: a sheet that hangs from a rail as high as the opening and is blown along the walk by
 * gusts. Its hem goes furthest, the rail stays. At rest it breaks no beam: only gusts are told.
 */
import { smoothstep } from '../../engine/interpolate.js';
import type { Curtain } from '../../geometry/schema.js';
import type { Limb } from '../../geometry/limbs.js';
import { limbOf } from '../../geometry/limbs.js';
import type { Body } from '../body.js';
import { CURTAIN_SHAPE } from '../figures/leaf.js';
import { PART } from '../gait/parts.js';
import type { Passage } from '../motion/passage.js';
import type { LeafPlace } from './leaf.js';
import { hangingBody } from './leaf.js';
import { nodesFor, swinging } from './swinging.js';

const SHAPE = CURTAIN_SHAPE.value;
/** Folds across the breadth: a sheet of so many capsules. A beam across meets the first of them. */
const FOLDS = 5;

export function curtainBody({ width_m, height_m }: LeafPlace, number: number): Body {
  const r = SHAPE.thickness / 2;
  const limbs: Limb[] = Array.from({ length: FOLDS }, () => limbOf(PART.trunk, 0, 0, 0, 0, 0, 0, r));
  return hangingBody('curtain', number, height_m, Math.min(SHAPE.breadth, width_m), limbs);
}

/** One gust: the hem is carried by `swing_m` and comes back, in `gust_s`. */
export function gust(curtain: Curtain, { width_m, height_m }: LeafPlace): Passage {
  const r = SHAPE.thickness / 2;
  const breadth = Math.min(SHAPE.breadth, width_m);
  const length = height_m - r - SHAPE.floor - r;
  // The hem swings on an arc about the rail, and is lifted as it goes.
  const angle = Math.min(1, Math.abs(curtain.swing_m) / length);
  return swinging(FOLDS, nodesFor(length, 4 * angle, 1.5), curtain.gust_s, (limb, t, a, b, k) => {
    const share = t < 0.5 ? smoothstep(2 * t) : smoothstep(2 - 2 * t);
    const out = angle * share;
    const x = r + (limb * (breadth - 2 * r)) / (FOLDS - 1);
    a.l[k] = x;
    a.w[k] = curtain.at_m + Math.sign(curtain.swing_m) * length * out;
    a.z[k] = height_m - r - length * Math.sqrt(1 - out * out);
    b.l[k] = x;
    b.w[k] = curtain.at_m;
    b.z[k] = height_m - r;
  });
}
