/** A pet that stays: it stands or sits, wagging its tail, and sits down and stands up. Nothing of it is published. */
import { DEG, PI, sin } from '../../engine/arithmetic.js';
import { smoothstep } from '../../engine/interpolate.js';
import type { FlatBeam, Frame } from '../../geometry/beam-line.js';
import { fromOrigin } from '../../geometry/cell.js';
import { TRACK_SPARE, limbTrack, pointTrack, setPoint } from '../../geometry/track.js';
import type { Body } from '../body.js';
import type { Foresee, Stretch } from '../motion/motion.js';
import { PET_LIMB, SPECIES } from './build.js';
import type { LimbEnds, Paw, Windows } from './pose.js';
import { between, limbEnds, sittingPose, standingPose } from './pose.js';
import { gaitOf } from './table.js';
import { keptTracks, lazyTracks, stillKey, stretchOver } from './whole.js';

const SITTING_NODES = 33;
/** Of a wagging tail: the time between two nodes. */
const WAG_NODE_S = 0.0625;
/** The hind paws step forward one after the other while the hindquarters go down. */
const SITTING: Windows = [null, null, [0, 0.5], [0.3, 0.8]];

/** Sits down, or stands up again. The forepaws stay. */
export function sitDown(body: Body, frame: Frame, down: boolean, duration_s: number, start: number): Stretch {
  const tracks = keptTracks(`sit ${down} ${stillKey(body)}`, body, SITTING_NODES, (t) => {
    const gone = down ? t : 1 - t;
    return { ...between(standingPose(body), sittingPose(body), 0, SITTING, gone), sits: smoothstep(gone) };
  });
  return stretchOver(tracks, frame, duration_s, start);
}

/** Stands or sits at the frame's origin, wagging. */
export function stay(body: Body, frame: Frame, sits: boolean, duration_s: number, start: number): Stretch {
  const { swing_deg, hertz } = SPECIES[gaitOf(body.walks).species].tail;
  const still = stillEnds(body, sits);
  const nodes = Math.max(2, Math.ceil(duration_s / WAG_NODE_S) + 1);
  const tracks = lazyTracks(nodes, (index, span) => {
    const { a, b } = still[index] as LimbEnds;
    const [one, other] = [pointTrack(nodes), pointTrack(nodes)];
    for (let k = 0; k < nodes; k++) {
      setPoint(one, k, a.l, a.w, a.z);
      setPoint(other, k, b.l, b.w, b.z);
    }
    if (index !== PET_LIMB.tail) return limbTrack(one, other, span);
    // The tip goes round the root on the level, as far from it as it hangs or lies behind.
    const behind = a.w - b.w;
    for (let k = 0; k < nodes; k++) {
      const time = (duration_s * k) / (nodes - 1);
      // Grows in over the first second and fades over the last.
      const grown = Math.max(0, Math.min(1, time, duration_s - time));
      const swing = grown * swing_deg * DEG * sin(2 * PI * hertz * time);
      const aside = sin(swing);
      setPoint(other, k, behind * aside, a.w - behind * Math.sqrt(1 - aside * aside), b.z);
    }
    return limbTrack(one, other, span);
  });
  return stretchOver(tracks, frame, duration_s, start, foreseeStill(still));
}

/** Both ends of every limb of a pet that stands or sits, its tail at rest. */
function stillEnds(body: Body, sits: boolean): readonly LimbEnds[] {
  const key = `${sits} ${stillKey(body)}`;
  let ends = stills.get(key);
  if (!ends) {
    const pose = sits ? sittingPose(body) : standingPose(body);
    ends = Array.from({ length: body.limbs.count }, (_, i) => limbEnds(body, pose, i));
    stills.set(key, ends);
  }
  return ends;
}
const stills = new Map<string, readonly LimbEnds[]>();

/** All but the tail stand still: in a beam all the time or never. */
function foreseeStill(still: readonly LimbEnds[]): Foresee {
  return (index, beam, threshold) => {
    if (index === PET_LIMB.tail) return 'look';
    const { a, b } = still[index] as LimbEnds;
    const d = fromOrigin(across(beam, a), above(beam, a), across(beam, b), above(beam, b)) - threshold;
    return d > TRACK_SPARE ? 'clear' : d < -TRACK_SPARE ? 'broken' : 'look';
  };
}
function across(beam: FlatBeam, p: Paw): number {
  return beam.u0 + beam.ul * p.l + beam.uw * p.w + beam.uz * p.z;
}
function above(beam: FlatBeam, p: Paw): number {
  return beam.v0 + beam.vl * p.l + beam.vz * p.z;
}
