/** Which lines of light run through a frame: each barrier's own, and those by which one dazzles another's receiver. */
import { DEG, cos, sin } from '../../engine/arithmetic.js';
import type { BeamLine } from '../../geometry/beam-line.js';
import { vectorOf } from '../../geometry/beam-line.js';
import type { BeamPath } from '../door-sensors.js';
import type { MountedBarrier } from '../mounted.js';
import { clearanceOf } from './covered-share.js';

/**
 * Own paths first, in the order of the beams, then the disturbing ones.
 *
 * A receiver also sees a neighbour's emitter when both work at the same time on one carrier, both emitters sit in the
 * same jamb, and the neighbour's light arrives within both half-angles. Retroreflectors send light back where it came
 * from, so the reflector layout has no such path.
 */
export function pathsOf(beams: readonly MountedBarrier[]): BeamPath[] {
  const own = beams.map((beam, i) => path(beam.line, i, i, beam));
  const disturbing: BeamPath[] = [];
  beams.forEach((source, i) => {
    beams.forEach((victim, j) => {
      if (i === j || !disturbs(source, victim)) return;
      disturbing.push(path({ from: source.line.from, to: victim.line.to }, i, j, victim));
    });
  });
  return [...own, ...disturbing];
}

function path(line: BeamLine, emitter: number, receiver: number, beam: MountedBarrier): BeamPath {
  return { line, emitter, receiver, clearance: clearanceOf(beam.sensor.beam_diameter_m, beam.sensor.covered_share) };
}

/** Whether one beam's emitter reaches another beam's receiver. */
export function disturbs(source: MountedBarrier, victim: MountedBarrier): boolean {
  if (source.sensor.separation !== 'none' || victim.sensor.separation !== 'none') return false;
  if (source.sensor.layout === 'reflector' || victim.sensor.layout === 'reflector') return false;
  if (source.mount !== victim.mount) return false;
  const across = { from: source.line.from, to: victim.line.to };
  return (
    within(source.line, across, source.sensor.half_angle_deg) &&
    within(victim.line, across, victim.sensor.half_angle_deg)
  );
}

/** Whether two lines make an angle of no more than `deg`; by sine and cosine, so no arc is needed. */
function within(a: BeamLine, b: BeamLine, deg: number): boolean {
  const u = vectorOf(a);
  const v = vectorOf(b);
  const dot = u.x * v.x + u.y * v.y + u.z * v.z;
  const x = u.y * v.z - u.z * v.y;
  const y = u.z * v.x - u.x * v.z;
  const z = u.x * v.y - u.y * v.x;
  return dot > 0 && Math.sqrt(x * x + y * y + z * z) * cos(deg * DEG) <= dot * sin(deg * DEG);
}
