/** Who the report draws in the doorway: for each walker of the mixes, and each pet of a household, a middling body in mid-step. */
import { frameAt } from '../geometry/beam-line.js';
import { drawBody, walkerNamed } from '../agents/walkers.js';
import { poseAt } from '../agents/motion/motion.js';
import { walk } from '../agents/motion/walk.js';
import { CAT, DOG_SIZES } from '../agents/figures/pets.js';
import type { Walker } from '../agents/schema.js';
import { isPet } from '../agents/schema.js';
import { middleStature } from '../agents/stature.js';
import { Stream } from '../engine/stream.js';
import type { Design } from '../scenario/schema.js';
import type { Silhouette } from '../score/figures.js';

/** Gait phase of the picture, in nodes of 128: the right foot has just taken the weight, both legs are apart. */
const PICTURED_NODE = 4;

export function silhouettes(design: Design): Silhouette[] {
  const walk = design.doors.flatMap((door) => door.traffic.mix.map((entry) => entry.who));
  // A household's pets follow its people, and no mix names them.
  const names = [...new Set([...walk, ...(design.household?.pets ?? []).map(({ name }) => name)])];
  return names.map((who) => silhouette(who, middling(walkerNamed(who, design.walkers))));
}

function silhouette(who: string, walker: Walker): Silhouette {
  const opening = { width_m: 10, zone_m: 1 };
  // The stream's middling draws don't matter for stature, which is given; girths are one plausible person's.
  const body = drawBody(who, walker, 0, opening, 0.7, Stream.root('silhouette').child(who));
  const stretch = walk(body, frameAt(0, 0, 0), 0, 1, PICTURED_NODE, { speed_mps: 1, tilt: 0, dip: 0, half_m: 1 }, 0);
  return {
    who,
    is: sortOf(walker),
    stature_m: body.stature_m,
    capsules: poseAt(body, stretch, PICTURED_NODE).map(({ x0, z0, x1, z1, radius }) => ({ x0, z0, x1, z1, radius })),
  };
}

/** The age from which statures are a woman's or a man's. */
const ADULT_Y = 18;

/** @param walker a middling one */
function sortOf(walker: Walker): NonNullable<Silhouette['is']> {
  if (isPet(walker)) return 'pet';
  if (walker.kind === 'person') return walker.age_y < ADULT_Y ? 'child' : 'adult';
  return 'other';
}

/** A walker of middle age and stature, a pet of middle height, among those the description allows. */
function middling(walker: Walker): Walker {
  if (walker.kind === 'people') {
    const age_y = (walker.ages_y[0] + walker.ages_y[1]) / 2;
    const sex = walker.women_share >= 0.5 ? 'woman' : 'man';
    const { with_infant, load } = walker;
    return { kind: 'person', sex, age_y, stature_m: middleStature(sex, age_y), with_infant, load };
  }
  if (walker.kind === 'table') {
    const rows = [...walker.rows].sort((a, b) => a.stature_m - b.stature_m);
    const row = rows[Math.floor(rows.length / 2)] as (typeof rows)[number];
    return { ...walker, rows: [row] };
  }
  if (isPet(walker)) {
    const { withers_low, withers_high } = (walker.kind === 'dog' ? DOG_SIZES[walker.size] : CAT).value;
    return { ...walker, withers_m: walker.withers_m ?? (withers_low + withers_high) / 2 };
  }
  return walker;
}
