/** Bodies posed in a doorway at one instant, as rangers look at them. */
import type { Posed } from '../agents/motion/posed.js';
import type { Scene } from '../sensors/ranger.js';
import { CAPSULE } from '../sensors/ranger.js';

/** One scene that is kept and written over. */
export class DoorScene {
  readonly scene: Scene = { count: 0, capsules: new Float64Array(64 * CAPSULE), clothing: new Float64Array(64) };

  clear(): void {
    this.scene.count = 0;
  }

  /**
   * Adds a body as it is so many seconds into its visit.
   *
   * @param clothing what its clothes draw: uniform on (0, 1)
   * @param near when each limb matters, as of near.ts; without it all limbs are there
   */
  add(posed: Posed, seconds: number, clothing: number, near: Float64Array | null = null): void {
    const { scene } = this;
    const { count } = scene;
    if (count + posed.limbs > scene.clothing.length) this.grow(2 * (count + posed.limbs));
    const after = posed.into(seconds, scene.capsules, count * CAPSULE, near) / CAPSULE;
    for (let i = count; i < after; i++) scene.clothing[i] = clothing;
    scene.count = after;
  }

  private grow(capsules: number): void {
    const { scene } = this;
    const grown = new Float64Array(capsules * CAPSULE);
    grown.set(scene.capsules);
    scene.capsules = grown;
    const clothing = new Float64Array(capsules);
    clothing.set(scene.clothing);
    scene.clothing = clothing;
  }
}
