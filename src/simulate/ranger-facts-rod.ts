/** Where a thin upright rod breaks a ranger's beam: how wide its cone is in this doorway, and where it is blind. */
import { CAPSULE, type Scene } from '../sensors/ranger.js';
import type { Share } from './weighted.js';
import type { RangerPairFacts } from './ranger-fact-types.js';
import { breaksBeam, type Placed } from './ranger-facts-house.js';

/** About a wrist: what a cone must not miss, and what tells how wide it is. */
export const FACT_ROD = { radius_m: 0.02, height_m: 1.7 } as const;
/** Under a low lintel the rod keeps so far below it. */
const BELOW_LINTEL_M = 0.1;
/** Places are tried so far apart. */
const ACROSS_STEP_M = 0.01;
const AXIS_STEP_M = 0.005;
const MOST_PLACES = 1000;
/** How far to either side along the walk a cone is looked for. */
const ALONG_M = 1.5;

export interface Opening {
  readonly width_m: number;
  readonly height_m: number;
}

/** One rod that is put from place to place, in middling clothes. */
class Rod {
  private readonly scene: Scene = {
    count: 1,
    capsules: new Float64Array(CAPSULE),
    clothing: Float64Array.of(0.5),
  };

  constructor({ height_m }: Opening) {
    const { capsules } = this.scene;
    const { radius_m } = FACT_ROD;
    capsules[2] = radius_m;
    capsules[5] = Math.min(FACT_ROD.height_m, height_m - BELOW_LINTEL_M) - radius_m;
    capsules[6] = radius_m;
  }

  /** Whether it breaks the beam of a ranger while its middle stands at (x, y). */
  breaks(placed: Placed, x: number, y: number): boolean {
    const { capsules } = this.scene;
    capsules[0] = x;
    capsules[3] = x;
    capsules[1] = y;
    capsules[4] = y;
    return breaksBeam(placed, placed.ranger.reading(placed.ranger.sees(this.scene), 0.5));
  }
}

/**
 * From and to how far along the axis the rod's surface must be to break the beam; to 5 mm. Null when it breaks none,
 * and for a ranger that looks down: an upright rod has no place along its axis.
 */
export function sightAlongAxis(placed: Placed, opening: Opening): readonly [number, number] | null {
  const { mount, line } = placed.mounted;
  if (mount === 'lintel') return null;
  const rod = new Rod(opening);
  const [dx, dy] = [line.to.x - line.from.x, line.to.y - line.from.y];
  const length = Math.sqrt(dx * dx + dy * dy);
  const step = Math.max(AXIS_STEP_M, length / MOST_PLACES);
  let from: number | null = null;
  let to = 0;
  for (let n = 0; n * step + 2 * FACT_ROD.radius_m <= length; n++) {
    const share = (n * step + FACT_ROD.radius_m) / length;
    if (!rod.breaks(placed, line.from.x + share * dx, line.from.y + share * dy)) continue;
    from ??= n * step;
    to = n * step;
  }
  return from === null ? null : [from, to];
}

/** Of two rangers at these places along the walk, half-way across: where either sees the rod, and where both do at once. */
export function sharedSight(
  first: Placed,
  second: Placed,
  between_m: number,
  opening: Opening,
): Pick<RangerPairFacts, 'overlap' | 'sight_m'> {
  const rod = new Rod(opening);
  const { width_m } = opening;
  return {
    overlap: shareOfPlaces(width_m, (x) => rod.breaks(first, x, between_m) && rod.breaks(second, x, between_m)),
    sight_m: [sightAlongWalk(rod, first, width_m / 2), sightAlongWalk(rod, second, width_m / 2)],
  };
}

function shareOfPlaces(width_m: number, holds: (x: number) => boolean): Share {
  const n = Math.min(MOST_PLACES, Math.max(1, Math.round(width_m / ACROSS_STEP_M)));
  let yes = 0;
  for (let i = 0; i < n; i++) if (holds(((i + 0.5) * width_m) / n)) yes++;
  return { value: yes / n, n };
}

function sightAlongWalk(rod: Rod, placed: Placed, x: number): readonly [number, number] | null {
  let from: number | null = null;
  let to = 0;
  const steps = Math.round(ALONG_M / ACROSS_STEP_M);
  for (let n = -steps; n <= steps; n++) {
    const y = (n * ALONG_M) / steps;
    if (!rod.breaks(placed, x, y)) continue;
    from ??= y;
    to = y;
  }
  return from === null ? null : [from, to];
}
