/** Facts about the rangers of every door, worked out of the whole house: they share controllers and the air. */
import type { Design } from '../scenario/schema.js';
import type { Crossing, ReadRanger } from './crossing-sample.js';
import type { DoorRangerFacts, RangerFacts, RangerPairFacts } from './ranger-fact-types.js';
import { seenFacts } from './ranger-facts-crossings.js';
import { heardBy } from './ranger-facts-heard.js';
import { breaksBeam, type PlacedHouse, placeRangers } from './ranger-facts-house.js';
import { idleFacts } from './ranger-facts-idle.js';
import { sharedSight } from './ranger-facts-rod.js';
import { intervalFacts, type RoundTimes, roundTimes, scanFacts, timesOf } from './ranger-facts-scan.js';
import type { Weighted } from './weighted.js';

/** The rangers of one door, as its facts need them. */
export interface RangerDoor {
  /** Per beam; null for a barrier. */
  readonly read: readonly (ReadRanger | null)[];
  /** Null without rangers. */
  readonly facts: DoorRangerFacts | null;
  beamFacts(beam: number, crossings: readonly Weighted<Crossing>[]): RangerFacts | null;
  /** Of two beams by index, at a place along the walk between them; null where one is a barrier or always broken. */
  sharedSight(first: number, second: number, between_m: number): Pick<RangerPairFacts, 'overlap' | 'sight_m'> | null;
}

export function rangerDoors(design: Design): RangerDoor[] {
  const house = placeRangers(design);
  const times = roundTimes(house);
  return design.doors.map((_, d) => rangerDoor(design, d, house, times));
}

function rangerDoor(design: Design, d: number, house: PlacedHouse, times: readonly RoundTimes[]): RangerDoor {
  const door = design.doors[d] as Design['doors'][number];
  const own = house.rangers.filter((one) => one.door === d);
  const read = door.beams.map((_, beam): ReadRanger | null => {
    const placed = own.find((one) => one.beam === beam);
    return placed ? { placed, interval: intervalFacts(times, placed) } : null;
  });
  return {
    read,
    facts: own[0]
      ? {
          scan: scanFacts(house, timesOf(times, own[0])),
          heard: own.flatMap((listener) => heardBy(house, times, listener)),
        }
      : null,
    beamFacts(beam, crossings) {
      const one = read[beam];
      if (!one) return null;
      const { placed, interval } = one;
      const idle = idleFacts(placed, door, interval, design.surroundings.temperature_c);
      return { interval, ...idle, crossings: seenFacts(crossings, beam) };
    },
    sharedSight(first, second, between_m) {
      const [a, b] = [read[first], read[second]];
      if (!a || !b || [a, b].some(({ placed }) => breaksBeam(placed, placed.idle_um))) return null;
      return sharedSight(a.placed, b.placed, between_m, door);
    },
  };
}
