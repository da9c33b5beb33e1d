/** Whether a capsule stands in a straight way. */
import { CAPSULE, type Scene } from '../ranger.js';

/** Whether any capsule but number `except` (−1: none left out) comes nearer to the straight way than its radius. */
export function isBlocked(
  scene: Scene,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  except: number,
): boolean {
  const { capsules, count } = scene;
  const lowY = ay < by ? ay : by;
  const highY = ay < by ? by : ay;
  const lowZ = az < bz ? az : bz;
  const highZ = az < bz ? bz : az;
  for (let i = 0; i < count; i++) {
    // Most capsules are far away along the walk, or altogether higher or lower.
    const at = i * CAPSULE;
    const radius = capsules[at + 6]!;
    const cy = capsules[at + 1]!;
    const dy = capsules[at + 4]!;
    if ((cy < dy ? cy : dy) - radius > highY || (cy < dy ? dy : cy) + radius < lowY) continue;
    const cz = capsules[at + 2]!;
    const dz = capsules[at + 5]!;
    if ((cz < dz ? cz : dz) - radius > highZ || (cz < dz ? dz : cz) + radius < lowZ) continue;
    if (i !== except && standsIn(scene, i, ax, ay, az, bx, by, bz)) return true;
  }
  return false;
}

/** Whether one capsule comes nearer to the straight way from a to b than its radius. */
export function standsIn(
  scene: Scene,
  index: number,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
): boolean {
  const { capsules } = scene;
  const at = index * CAPSULE;
  const cy = capsules[at + 1]!;
  const ey = capsules[at + 4]! - cy;
  const radius = capsules[at + 6]!;
  const cx = capsules[at]!;
  const cz = capsules[at + 2]!;
  const ex = capsules[at + 3]! - cx;
  const ez = capsules[at + 5]! - cz;
  const fx = bx - ax;
  const fy = by - ay;
  const fz = bz - az;
  const wx = ax - cx;
  const wy = ay - cy;
  const wz = az - cz;
  // Nearest points of two segments, way a + s·f and axis c + t·e.
  const ff = fx * fx + fy * fy + fz * fz;
  const ee = ex * ex + ey * ey + ez * ez;
  const fe = fx * ex + fy * ey + fz * ez;
  const fw = fx * wx + fy * wy + fz * wz;
  const ew = ex * wx + ey * wy + ez * wz;
  const skew = ff * ee - fe * fe;
  let s = skew > 1e-12 * ff * ee ? clamp((fe * ew - fw * ee) / skew) : 0;
  const t = ee > 0 ? clamp((fe * s + ew) / ee) : 0;
  s = ff > 0 ? clamp((fe * t - fw) / ff) : 0;
  const gx = wx + s * fx - t * ex;
  const gy = wy + s * fy - t * ey;
  const gz = wz + s * fz - t * ez;
  return gx * gx + gy * gy + gz * gz < radius * radius;
}

function clamp(x: number): number {
  return x < 0 ? 0 : x > 1 ? 1 : x;
}
