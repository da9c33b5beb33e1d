/** Every walker a design can name: the built-in ones and its own, which come first where names agree. */
import type { Walker } from '../agents/schema.js';
import { BUILT_IN_WALKERS } from '../agents/schema.js';
import type { Design } from '../scenario/schema.js';

export function walkersKnown(design: Design): ReadonlyMap<string, Walker> {
  return new Map([...Object.entries(BUILT_IN_WALKERS), ...Object.entries(design.walkers)]);
}
