/** The echoes of bodies. */
import { CAPSULE, type Scene } from '../ranger.js';
import type { Hearing } from './hearing.js';
import type { Audible } from './near.js';
import { loudestArea, targetArea, visibleLength } from './target.js';

/**
 * Distance of the earliest echo of any capsule that is heard, metres; `limit_m` if none is nearer than that. What is out
 * of all hearing is not looked at.
 *
 * A capsule echoes from two places. Like a mirror, from the point of its surface nearest to the ranger, whose normal
 * points back at it. And diffusely, from the point of its surface nearest to the ranger's axis, where the beam is
 * strongest: `diffuse_db` below a mirror at that place. What is behind the piston's plane is not heard, and one
 * capsule's echo is not weakened by another in front: the one in front is heard first.
 */
export function nearestEcho(scene: Scene, hearing: Hearing, audible: Audible, limit_m: number): number {
  const { capsules, clothing, count } = scene;
  const { x, y, z, dx, dy, dz, beam, gain, diffuse, blind_m, wavelength_m } = hearing;
  const { lowX, highX, lowY, highY, lowZ, highZ, aside_m } = audible;
  let nearest = limit_m;
  // One loop without calls that return numbers: this is where a ranger's time goes.
  for (let i = 0; i < count; i++) {
    const at = i * CAPSULE;
    const radius = capsules[at + 6]!;
    const ay = capsules[at + 1]!;
    const by = capsules[at + 4]!;
    if ((ay < by ? ay : by) - radius > highY || (ay < by ? by : ay) + radius < lowY) continue;
    const az = capsules[at + 2]!;
    const bz = capsules[at + 5]!;
    if ((az < bz ? az : bz) - radius > highZ || (az < bz ? bz : az) + radius < lowZ) continue;
    const ax = capsules[at]!;
    const bx = capsules[at + 3]!;
    if ((ax < bx ? ax : bx) - radius > highX || (ax < bx ? bx : ax) + radius < lowX) continue;
    const wx = ax - x;
    const wy = ay - y;
    const wz = az - z;
    const ex = bx - ax;
    const ey = by - ay;
    const ez = bz - az;
    const e2 = ex * ex + ey * ey + ez * ez;
    const ew = ex * wx + ey * wy + ez * wz;
    // Foot of the perpendicular from the ranger, in lengths of the axis, and the axis point nearest to it.
    const foot = e2 > 0 ? -ew / e2 : 0;
    const s = foot < 0 ? 0 : foot > 1 ? 1 : foot;
    const qx = wx + s * ex;
    const qy = wy + s * ey;
    const qz = wz + s * ez;
    const far2 = qx * qx + qy * qy + qz * qz;
    // The diffuse echo is never nearer than the mirror's.
    const beyond = nearest + radius;
    if (far2 >= beyond * beyond) continue;
    const far = Math.sqrt(far2);
    const mirror = far - radius;
    if (mirror >= blind_m) {
      const along = (qx * dx + qy * dy + qz * dz) / far;
      if (along > 0) {
        const way = along < 1 ? beam.at(1 - along * along) : 1;
        const loudness = gain * way * way;
        // Most are too faint whatever else: bare, in clear air, broadside.
        if (loudness * loudestArea(radius, mirror) >= mirror * mirror * mirror * mirror) {
          const area = areaAt(foot, Math.sqrt(e2), radius, mirror, wavelength_m);
          if (isHeard(hearing, loudness * area, mirror, clothing[i]!)) {
            nearest = mirror;
            continue;
          }
        }
      }
    }

    const dw = dx * wx + dy * wy + dz * wz;
    const de = dx * ex + dy * ey + dz * ez;
    const skew = e2 - de * de;
    let t = skew > 1e-12 * e2 ? (de * dw - ew) / skew : foot;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    const along = dw + t * de;
    if (!(along > 0) || along - radius >= nearest) continue;
    const px = wx + t * ex - along * dx;
    const py = wy + t * ey - along * dy;
    const pz = wz + t * ez - along * dz;
    const off2 = px * px + py * py + pz * pz;
    const reach = aside_m + radius;
    if (off2 > reach * reach) continue;
    let distance: number;
    let sin2 = 0;
    if (off2 < radius * radius) {
      // The axis meets the capsule: taken for a sphere around the axis point nearest, so never nearer than its surface.
      distance = along - Math.sqrt(radius * radius - off2);
    } else {
      const off = Math.sqrt(off2) - radius;
      const d2 = along * along + off * off;
      distance = Math.sqrt(d2);
      sin2 = (off * off) / d2;
    }
    if (!(distance < nearest) || distance < blind_m) continue;
    const way = beam.at(sin2);
    const loudness = gain * way * way * diffuse;
    if (loudness * loudestArea(radius, distance) < distance * distance * distance * distance) continue;
    const area = areaAt(t, Math.sqrt(e2), radius, distance, wavelength_m);
    if (isHeard(hearing, loudness * area, distance, clothing[i]!)) nearest = distance;
  }
  return nearest;
}

/** σ of a capsule as met at a place on its axis, given in lengths of it. */
function areaAt(place: number, length: number, radius: number, distance: number, wavelength: number): number {
  return targetArea(radius, visibleLength(place * length, length, wavelength * distance), distance, wavelength);
}

/**
 * Source level − 40·lg R − 2αR + target strength + directivity both ways − clothing, against the threshold; as powers.
 *
 * @param strength all but spreading, absorption and clothing
 */
function isHeard({ air, clothing }: Hearing, strength: number, distance: number, drawn: number): boolean {
  const r2 = distance * distance;
  return strength * air.at(2 * distance) * clothing.at(drawn) >= r2 * r2;
}
