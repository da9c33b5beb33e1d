/** Walkers, each by itself. */
import type { Finding } from '../issue.js';
import { type Outline, finding } from './outline.js';

export function checkWalkers(outline: Outline): Finding[] {
  return Object.entries(outline.walkers ?? {}).flatMap(([name, walker]) => {
    if (walker?.kind === 'people' || walker?.kind === 'wheelchair-user') {
      const [low, high] = walker.ages_y ?? [];
      const found: Finding[] = walker.kind === 'wheelchair-user' ? speedOrder(name, walker) : [];
      if (typeof low !== 'number' || typeof high !== 'number' || low <= high) return found;
      const problem = { code: 'not_ordered', low_key: 'youngest', low, high_key: 'oldest', high } as const;
      return [...found, finding(['walkers', name, 'ages_y'], problem)];
    }
    if (walker?.kind === 'test-rod') {
      const { diameter_m, height_m } = walker;
      const found = speedOrder(name, walker);
      // Its top is rounded: a rod lower than its radius would stick out above itself.
      if (height_m !== undefined && diameter_m !== undefined && height_m < diameter_m / 2) {
        found.push(finding(['walkers', name, 'height_m'], { code: 'rod_too_low', height_m, least_m: diameter_m / 2 }));
      }
      return found;
    }
    return [];
  });
}

/** Slowest and fastest speed. */
function speedOrder(
  name: string,
  { speed_mps: low, speed_to_mps: high }: { speed_mps?: number | undefined; speed_to_mps?: number | undefined },
): Finding[] {
  if (low === undefined || high === undefined || low <= high) return [];
  const problem = { code: 'not_ordered', low_key: 'speed_mps', low, high_key: 'speed_to_mps', high } as const;
  return [finding(['walkers', name, 'speed_to_mps'], problem)];
}
