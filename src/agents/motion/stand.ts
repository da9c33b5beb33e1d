/** Standing in the doorway: feet planted, the body swaying over them and shifting its weight. */
import { PI, sin } from '../../engine/arithmetic.js';
import type { Stream } from '../../engine/stream.js';
import type { FlatBeam, Frame } from '../../geometry/beam-line.js';
import { fromOrigin } from '../../geometry/cell.js';
import type { Limb } from '../../geometry/limbs.js';
import type { LimbTrack, PoseTracks } from '../../geometry/track.js';
import { TRACK_SPARE, limbTrack, pointTrack, setPoint } from '../../geometry/track.js';
import type { Body } from '../body.js';
import { SWAY_FORWARD, SWAY_SIDEWAYS } from '../figures/stillness.js';
import type { Joint } from '../gait/leg-model.js';
import type { Stretch } from './motion.js';
import { standingEnds } from './stance.js';

const NODE_S = 0.125;
/**
 * A stay of `duration_s`, beginning `start` seconds into the visit, at the frame's origin.
 * Sway grows in over the first second and fades over the last, so that it joins the steps around it.
 */
export function stand(body: Body, frame: Frame, duration_s: number, start: number, chance: Stream): Stretch {
  const nodes = Math.max(2, Math.ceil(duration_s / NODE_S) + 1);
  const per = duration_s / (nodes - 1);
  const span = { nodes, advance: 0 };
  let sway: { readonly l: Float64Array; readonly w: Float64Array } | undefined;
  const swayed = (joint: Joint, share: number) => {
    sway ??= { l: swaying(SWAY_SIDEWAYS.value, 10), w: swaying(SWAY_FORWARD.value, 0) };
    const p = pointTrack(nodes);
    for (let k = 0; k < nodes; k++) setPoint(p, k, share * sway.l[k]!, joint.w + share * sway.w[k]!, joint.z);
    return p;
  };
  const swaying = (waves: typeof SWAY_FORWARD.value, firstDraw: number): Float64Array => {
    const out = new Float64Array(nodes);
    waves.forEach(({ amplitude_m, period_s }, i) => {
      const phase = chance.at(firstDraw + i);
      for (let k = 0; k < nodes; k++) {
        const t = k * per;
        const grown = Math.min(1, t, duration_s - t) / body.unit_m;
        out[k] = out[k]! + grown * amplitude_m * sin(2 * PI * (t / period_s + phase));
      }
    });
    return out;
  };
  const parts: (LimbTrack | undefined)[] = [];
  const make = (index: number): LimbTrack => {
    const [a, b] = standingEnds(index, body.elbow_deg);
    return limbTrack(swayed(a, a.sways), swayed(b, b.sways), span);
  };
  const tracks: PoseTracks = { span, made: parts, part: (index) => (parts[index] ??= make(index)), heights: null };
  return {
    tracks,
    frame,
    from: 0,
    to: nodes - 1,
    timeAt: (node) => start + node * per,
    nodeAt: (time) => (time - start) / per,
    foresee: (limb, beam, threshold) => foreseeStanding(body.limbs.at(limb), beam, threshold, body),
    perLimb: false,
  };
}

/** Everybody stands nearly still: most limbs are in a beam all the time or never. */
function foreseeStanding(limb: Limb, beam: FlatBeam, threshold: number, body: Body): 'clear' | 'broken' | 'look' {
  const [a, b] = standingEnds(limb.part, body.elbow_deg);
  const au = beam.u0 + beam.ul * limb.al + beam.uw * (a.w + limb.aw) + beam.uz * (a.z + limb.az);
  const av = beam.v0 + beam.vl * limb.al + beam.vz * (a.z + limb.az);
  const bu = beam.u0 + beam.ul * limb.bl + beam.uw * (b.w + limb.bw) + beam.uz * (b.z + limb.bz);
  const bv = beam.v0 + beam.vl * limb.bl + beam.vz * (b.z + limb.bz);
  const d = fromOrigin(au, av, bu, bv) - threshold;
  const level = beam.vl === 0;
  const most = level
    ? Math.abs(beam.uw) * MOST_FORWARD_M + Math.abs(beam.ul) * MOST_SIDEWAYS_M
    : MOST_FORWARD_M + MOST_SIDEWAYS_M;
  const stray = most / body.unit_m + TRACK_SPARE;
  return d > stray ? 'clear' : d < -stray ? 'broken' : 'look';
}
const amplitude = (waves: typeof SWAY_FORWARD.value): number => waves.reduce((sum, wave) => sum + wave.amplitude_m, 0);
const MOST_FORWARD_M = amplitude(SWAY_FORWARD.value);
const MOST_SIDEWAYS_M = amplitude(SWAY_SIDEWAYS.value);
