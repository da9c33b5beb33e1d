/**
 * Half a turn of a pet on the spot: the trunk turns evenly, the paws step round in the order of the walk, lifted as they
 * go. Whatever of a long pet would swing into a jamb is drawn in sideways, as if it bent.
 */
import { PI } from '../../engine/arithmetic.js';
import { smoothstep } from '../../engine/interpolate.js';
import type { Frame } from '../../geometry/beam-line.js';
import type { Extent, PoseTracks } from '../../geometry/track.js';
import {
  EXTENT_A,
  EXTENT_B,
  STRIDE,
  TRACK_SPARE,
  extentOf,
  limbTrack,
  pointTrack,
  setPoint,
} from '../../geometry/track.js';
import type { Body } from '../body.js';
import type { Foresee, Stretch } from '../motion/motion.js';
import { petReach } from './body.js';
import { PET_LIMB } from './build.js';
import { lifted } from './leg.js';
import type { Paw, PetPose } from './pose.js';
import { spun, standingPose } from './pose.js';
import { keptTracks, lazyTracks, stillKey, stretchOver } from './whole.js';

const NODES = 129;
/** Half turns are made in so many steps of each paw. */
const STEPS = 4;
/** When in a round of steps each paw moves: hind right, fore right, hind left, fore left. */
const ORDER = [1, 3, 0, 2];
/** Share of a turn by which a long pet is drawn in. */
const DRAWN_IN_BY = 0.15;

/** A turn to the right (`way` 1) or the left (−1) on the frame's origin, in an opening `width_m` wide. */
export function turnRound(
  body: Body,
  frame: Frame,
  width_m: number,
  way: 1 | -1,
  duration_s: number,
  start: number,
): Stretch {
  const free = keptTracks(`turn ${way} ${stillKey(body)}`, body, NODES, (t) => turning(body, way, t));
  const reach = petReach(body);
  const fits = frame.x >= reach && width_m - frame.x >= reach;
  const tracks = fits ? free : drawnIn(body, frame, width_m, free);
  return stretchOver(tracks, frame, duration_s, start, foreseeTurning(free));
}

/**
 * Most limbs are out of most level beams' reach, whoever is drawn in: that takes a part nearer to the line walked, never
 * further from it.
 */
function foreseeTurning(free: PoseTracks): Foresee {
  return (index, beam, threshold) => {
    if (beam.vl !== 0) return 'look';
    const track = free.part(index);
    const a = extentOf(track, EXTENT_A);
    const b = extentOf(track, EXTENT_B);
    const within = threshold + TRACK_SPARE;
    if (Math.min(a.z0, b.z0) + beam.v0 > within || Math.max(a.z1, b.z1) + beam.v0 < -within) return 'clear';
    return Math.abs(beam.u0) - Math.max(circle(a), circle(b)) > within ? 'clear' : 'look';
  };
}

/** No place within an extent is further from the spot turned on. */
function circle({ l0, l1, w0, w1 }: Extent): number {
  const l = Math.max(-l0, l1);
  const w = Math.max(-w0, w1);
  return Math.sqrt(l * l + w * w);
}

function turning(body: Body, way: 1 | -1, t: number): PetPose {
  const standing = standingPose(body);
  const turned = way * PI * t;
  const step = Math.min(STEPS - 1, Math.floor(t * STEPS));
  const inStep = t * STEPS - step;
  const paws = standing.paws.map((paw, i): Paw => {
    const u = Math.min(1, Math.max(0, inStep * ORDER.length - (ORDER[i] as number)));
    const at = (way * PI * (step + smoothstep(u))) / STEPS;
    const seen = spun(paw, at - turned);
    return { l: seen.l, w: seen.w, z: paw.z + lifted(u) };
  });
  return { ...standing, turned, paws };
}

/** The same tracks with every end kept between the jambs. */
function drawnIn(body: Body, frame: Frame, width_m: number, free: PoseTracks): PoseTracks {
  return lazyTracks(NODES, (index, span) => {
    const { ends } = free.part(index);
    const radius = body.limbs.radiusOf(index) * body.unit_m;
    const leg = index >= PET_LIMB.firstLeg && index < PET_LIMB.tail;
    const [a, b] = [pointTrack(NODES), pointTrack(NODES)];
    for (let k = 0; k < NODES; k++) {
      const t = k / (NODES - 1);
      // Legs are between the jambs at both ends of the turn; nose and tail, far ahead and behind, need not be.
      const spare = leg ? 0 : Math.max(0, 1 - t / DRAWN_IN_BY, 1 - (1 - t) / DRAWN_IN_BY);
      for (const [p, at] of [
        [a, k * STRIDE],
        [b, k * STRIDE + 3],
      ] as const) {
        const [l, w] = [ends[at]!, ends[at + 1]!];
        const x = frame.x + (l * frame.cos + w * frame.sin) * body.unit_m;
        const off = (Math.min(Math.max(x, radius - spare), width_m - radius + spare) - x) / body.unit_m;
        setPoint(p, k, l + off * frame.cos, w + off * frame.sin, ends[at + 2]!);
      }
    }
    return limbTrack(a, b, span);
  });
}
