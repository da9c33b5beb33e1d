/**
 * Stretches whose tracks hold whole limbs of a pet. In heights at the withers all pets of one gait table stop, sit and
 * turn alike, so that those tracks are made once and kept.
 */
import type { Frame } from '../../geometry/beam-line.js';
import type { LimbTrack, PoseTracks } from '../../geometry/track.js';
import { limbTrack, pointTrack, setPoint } from '../../geometry/track.js';
import type { Body } from '../body.js';
import type { Foresee, Stretch } from '../motion/motion.js';
import type { PetPose } from './pose.js';
import { limbEnds } from './pose.js';
import { gaitOf } from './table.js';

const kept = new Map<string, PoseTracks>();

/** What a pet shares its kept tracks by: its whole gait, or only its kind and tail for what begins and ends standing. */
export function gaitKey(body: Body): string {
  const { stride, duty, lag } = gaitOf(body.walks);
  return `${stillKey(body)} ${stride} ${duty} ${lag}`;
}
export function stillKey(body: Body): string {
  const { species, tail_up } = gaitOf(body.walks);
  return `${species} ${tail_up}`;
}

/** Tracks of the poses over the time shares 0 … 1, made on first use under their name; each limb when first asked for. */
export function keptTracks(key: string, body: Body, nodes: number, poseAt: (t: number) => PetPose): PoseTracks {
  let tracks = kept.get(key);
  if (!tracks) kept.set(key, (tracks = tracksOver(body, nodes, poseAt)));
  return tracks;
}

function tracksOver(body: Body, nodes: number, poseAt: (t: number) => PetPose): PoseTracks {
  let poses: PetPose[] | undefined;
  return lazyTracks(nodes, (index, span) => {
    poses ??= Array.from({ length: nodes }, (_, k) => poseAt(k / (nodes - 1)));
    const [a, b] = [pointTrack(nodes), pointTrack(nodes)];
    for (let k = 0; k < nodes; k++) {
      const ends = limbEnds(body, poses[k] as PetPose, index);
      setPoint(a, k, ends.a.l, ends.a.w, ends.a.z);
      setPoint(b, k, ends.b.l, ends.b.w, ends.b.z);
    }
    return limbTrack(a, b, span);
  });
}

/** Tracks that don't repeat, each limb's made when a beam first asks for it. */
export function lazyTracks(nodes: number, make: (index: number, span: PoseTracks['span']) => LimbTrack): PoseTracks {
  const span = { nodes, advance: 0 };
  const made: (LimbTrack | undefined)[] = [];
  return { span, made, part: (index) => (made[index] ??= make(index, span)), heights: null };
}

/** A stretch over all nodes of such tracks, at an even pace. */
export function stretchOver(
  tracks: PoseTracks,
  frame: Frame,
  duration_s: number,
  start: number,
  foresee: Foresee | null = null,
): Stretch {
  const last = tracks.span.nodes - 1;
  return {
    tracks,
    frame,
    from: 0,
    to: last,
    // In this order, so that the last node is at the next stretch's start to the last bit.
    timeAt: (node) => start + duration_s * (node / last),
    nodeAt: (time) => ((time - start) / duration_s) * last,
    foresee,
    perLimb: true,
  };
}
