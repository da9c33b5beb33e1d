/** What is known of somebody turning on a spot without posing them: most limbs are out of most beams' reach. */
import type { FlatBeam } from '../../geometry/beam-line.js';
import type { Limb } from '../../geometry/limbs.js';
import { TRACK_SPARE } from '../../geometry/track.js';
import { standingEnds } from './stance.js';

/**
 * Whether a limb of somebody who turns on the frame's origin is in a level beam all the time, or never. Each end stays
 * on a circle round the spot and is lifted by at most `lift`; `threshold` is the distance at which the beam is broken.
 * Model units.
 */
export function foreseeTurning(
  limb: Limb,
  beam: FlatBeam,
  threshold: number,
  elbowDeg: number,
  lift: number,
): 'clear' | 'broken' | 'look' {
  if (beam.vl !== 0) return 'look';
  const [a, b] = standingEnds(limb.part, elbowDeg);
  const aw = a.w + limb.aw;
  const bw = b.w + limb.bw;
  const circle = Math.sqrt(Math.max(limb.al * limb.al + aw * aw, limb.bl * limb.bl + bw * bw));
  const away = Math.abs(beam.u0);
  // Heights of both ends above the beam; what follows the foot is lifted with it.
  const az = a.z + limb.az + beam.v0;
  const bz = b.z + limb.bz + beam.v0;
  const aTop = az + lift * (1 - a.turns);
  const bTop = bz + lift * (1 - b.turns);
  const beside = Math.max(0, away - circle);
  const above = Math.max(0, Math.min(az, bz), -Math.max(aTop, bTop));
  if (Math.sqrt(beside * beside + above * above) > threshold + TRACK_SPARE) return 'clear';
  const acrossHeight = (aTop < -TRACK_SPARE && bz > TRACK_SPARE) || (bTop < -TRACK_SPARE && az > TRACK_SPARE);
  return acrossHeight && away + circle < threshold - TRACK_SPARE ? 'broken' : 'look';
}
