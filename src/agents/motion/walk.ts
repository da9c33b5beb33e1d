/** Walking along a straight line: pose by path length, time by a smooth profile of slowness. */
import type { Frame } from '../../geometry/beam-line.js';
import { moved } from '../../geometry/beam-line.js';
import type { PoseTracks } from '../../geometry/track.js';
import { heightsOf, limbTrack, pointTrack } from '../../geometry/track.js';
import type { Body } from '../body.js';
import { NODES, gaitTable } from '../gait/gait-table.js';
import type { Stretch } from './motion.js';

/** How pace changes over a walk: slowness (s/m) is 1/speed · (1 + tilt·q + dip·(1 − q²)), q = path / half. */
export interface Pace {
  readonly speed_mps: number;
  /** Relative change of slowness from the middle to the end. */
  readonly tilt: number;
  /** Relative slowing in the middle, where the door plane is. */
  readonly dip: number;
  /** Path length at which q is 1, metres. */
  readonly half_m: number;
}

/** Time from the middle (path 0) to a path, seconds; a cubic, so it needs no transcendental function. */
export function timeTo(pace: Pace, path_m: number): number {
  const q = path_m / pace.half_m;
  return (
    (path_m + pace.half_m * q * q * (pace.tilt / 2) + pace.dip * (path_m - (pace.half_m * q * q * q) / 3)) /
    pace.speed_mps
  );
}

/** Path at a time since the middle, metres: {@link timeTo} the other way round. */
function pathAt({ speed_mps, tilt, dip, half_m }: Pace, time: number): number {
  const way = speed_mps * time;
  const linear = 1 + dip;
  const square = tilt / (2 * half_m);
  const cube = -dip / (3 * half_m * half_m);
  // Slowness changes little over a walk: four steps of Newton's method are more than enough.
  let path = way / linear;
  for (let i = 0; i < 4; i++) {
    const off = path * (linear + path * (square + path * cube)) - way;
    path -= off / (linear + path * (2 * square + 3 * path * cube));
  }
  return path;
}

/** Speed at a path, m/s. */
export function speedAt(pace: Pace, path_m: number): number {
  const q = path_m / pace.half_m;
  return pace.speed_mps / (1 + pace.tilt * q + pace.dip * (1 - q * q));
}

/**
 * A walk in a frame whose origin is the door plane's crossing of the walked line: the mean hip goes from `from_m` to
 * `to_m` along it.
 *
 * @param phase node number at `from_m`: which moment of the gait cycle the walk begins with
 * @param start seconds since the visit began
 */
export function walk(
  body: Body,
  frame: Frame,
  from_m: number,
  to_m: number,
  phase: number,
  pace: Pace,
  start: number,
): Stretch {
  const tracks = tracksOf(body);
  const perNode = (tracks.span.advance * body.unit_m) / tracks.span.nodes;
  // The node's own path length starts at node 0; the frame is set back so that node `phase` is at from_m.
  const back = from_m - phase * perNode;
  const t0 = timeTo(pace, from_m);
  return {
    tracks,
    frame: moved(frame, back),
    from: phase,
    to: phase + (to_m - from_m) / perNode,
    timeAt: (node) => start + timeTo(pace, back + node * perNode) - t0,
    nodeAt: (time) => (pathAt(pace, time - start + t0) - back) / perNode,
    foresee: null,
    perLimb: false,
  };
}

export function tracksOf(body: Body): PoseTracks {
  return body.walks ?? (body.step > 0 ? gaitTable(body.step, body.elbow_deg) : RIGID);
}

/** Nodes from one place to another along a walk. */
export function nodesOver(body: Body, path_m: number): number {
  const { advance, nodes } = tracksOf(body).span;
  return (path_m * nodes) / (advance * body.unit_m);
}

/** A body that moves as one piece, one unit a period. */
const RIGID: PoseTracks = (() => {
  const span = { nodes: NODES, advance: 1 };
  const p = pointTrack(NODES);
  for (let k = 0; k < NODES; k++) p.w[k] = k / NODES;
  const track = limbTrack(p, p, span);
  return { span, made: [track], part: () => track, heights: heightsOf([track]) };
})();
