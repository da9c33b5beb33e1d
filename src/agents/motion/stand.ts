/** Standing in the doorway: feet planted, the body swaying over them and shifting its weight. */
import { PI, sin } from '../../engine/arithmetic.js';
import type { Stream } from '../../engine/stream.js';
import type { Frame } from '../../geometry/beam-line.js';
import type { LimbTrack, PoseTracks } from '../../geometry/track.js';
import { limbTrack } from '../../geometry/track.js';
import type { Body } from '../body.js';
import { SWAY_FORWARD, SWAY_SIDEWAYS } from '../figures/stillness.js';
import { points, set } from '../gait/gait-table.js';
import type { Joint } from '../gait/leg-model.js';
import { PART } from '../gait/parts.js';
import type { Stretch } from './motion.js';
import { STANCE, hangingArm } from './stance.js';

const NODE_S = 0.125;

/**
 * A stay of `duration_s`, beginning `start` seconds into the visit, at the frame's origin.
 * Sway grows in over the first second and fades over the last, so that it joins the steps around it.
 */
export function stand(body: Body, frame: Frame, duration_s: number, start: number, chance: Stream): Stretch {
  const nodes = Math.max(2, Math.ceil(duration_s / NODE_S) + 1);
  const per = duration_s / (nodes - 1);
  const span = { nodes, advance: 0 };
  const forward = SWAY_FORWARD.value;
  const sideways = SWAY_SIDEWAYS.value;
  const l = new Float64Array(nodes);
  const w = new Float64Array(nodes);
  for (let k = 0; k < nodes; k++) {
    const t = k * per;
    const grown = Math.min(1, t, duration_s - t);
    for (let i = 0; i < forward.length; i++) w[k] = w[k]! + wave(forward[i]!, t, chance.at(i));
    for (let i = 0; i < sideways.length; i++) l[k] = l[k]! + wave(sideways[i]!, t, chance.at(10 + i));
    l[k] = (l[k]! * grown) / body.unit_m;
    w[k] = (w[k]! * grown) / body.unit_m;
  }
  const swayed = (joint: Joint, share: number) => {
    const p = points(nodes);
    for (let k = 0; k < nodes; k++) set(p, k, share * l[k]!, joint.w + share * w[k]!, joint.z);
    return p;
  };
  const arm = hangingArm(body.elbow_deg);
  const atShoulder = (aw: number, az: number): Joint => ({ w: STANCE.hip.w + aw, z: STANCE.hip.z + az });
  const parts = new Map<number, LimbTrack>();
  const make = (index: number): LimbTrack => {
    if (index === PART.trunk) return limbTrack(swayed(STANCE.hip, 1), swayed(STANCE.hip, 1), span);
    if (index === PART.thighR || index === PART.thighL)
      return limbTrack(swayed(STANCE.hip, 1), swayed(STANCE.knee, 0.5), span);
    if (index === PART.shankR || index === PART.shankL)
      return limbTrack(swayed(STANCE.knee, 0.5), swayed(STANCE.ankle, 0), span);
    if (index === PART.footR || index === PART.footL)
      return limbTrack(swayed(STANCE.heel, 0), swayed(STANCE.toe, 0), span);
    const elbow = swayed(atShoulder(arm.elbowW, arm.elbowZ), 1);
    if (index === PART.upperArmR || index === PART.upperArmL) return limbTrack(swayed(STANCE.hip, 1), elbow, span);
    return limbTrack(elbow, swayed(atShoulder(arm.handW, arm.handZ), 1), span);
  };
  const tracks: PoseTracks = {
    span,
    part(index) {
      let track = parts.get(index);
      if (!track) {
        track = make(index);
        parts.set(index, track);
      }
      return track;
    },
  };
  return { tracks, frame, from: 0, to: nodes - 1, timeAt: (node) => start + node * per };
}

function wave(part: { readonly amplitude_m: number; readonly period_s: number }, t: number, phase: number): number {
  return part.amplitude_m * sin(2 * PI * (t / part.period_s + phase));
}
