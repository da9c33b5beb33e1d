/** A trip at a doorway: each member's visit is laid out there, in order, and put on the clock. */
import { uniform } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import { SECOND_US } from '../../engine/time.js';
import type { Body } from '../body.js';
import type { CrowdDoor } from '../crowd-plan.js';
import { abreastPlace, passageOf, stops } from '../doings.js';
import type { Use } from '../doorway.js';
import type { Doorways } from '../doorways.js';
import { HEEL_LAG } from '../figures/household.js';
import { ABREAST_LAG, CLOSE_BEHIND_LAG } from '../figures/manner.js';
import type { PassageKind, Walker } from '../schema.js';
import { NO_ENTRY, visitOf } from '../visit.js';
import { drawBody, fitsAbreast } from '../walkers.js';
import type { Mover, Trip } from './mover.js';
import { type Place, placesInRanks } from './ranks.js';
import { laden } from './walkers.js';

/** Draws of a visit's stream, after those of its passage. */
const DRAW = { lag: 50, wait: 51 } as const;

export class Passing {
  /** @param walkers by the names of the household's people, also with what they carry @param bodies the crowd's stream of bodies */
  constructor(
    private readonly doors: readonly CrowdDoor[],
    private readonly doorways: Doorways,
    private readonly walkers: Readonly<Record<string, Walker>>,
    private readonly home_pace: number,
    private readonly bodies: Stream,
  ) {}

  /**
   * Takes a trip through its next door.
   *
   * @returns when the last member has left the doorway, and whether they are on the other side then; null for whoever
   *   finds the leaf shut and can't open it
   */
  pass(trip: Trip, time_us: number): { left_us: number; crossed: boolean } | null {
    const index = trip.way[trip.at] as number;
    const door = this.doors[index] as CrowdDoor;
    const forward = door.from === trip.here;
    const doorway = this.doorways.at(index);
    doorway.forget(time_us);
    const bodies = trip.members.map((member, i) => this.bodyOf(trip, member, i, door));
    const leaf = this.doorways.leafAt(index);
    if (leaf && (bodies[0] as Body).persons === 0 && !leaf.isOpen(time_us)) return null;
    const places = placesInRanks(bodies, door.opening, trip.abreast);
    let ahead: readonly Use[] = [];
    let rank: Use[] = [];
    let wanted_us = time_us;
    let left_us = time_us;
    let crossed = true;
    trip.members.forEach((member, i) => {
      const body = bodies[i] as Body;
      const place = places[i] as Place<Body>;
      const chance = this.bodies.nth(member.number).nth(1 + member.visits++);
      const doing = this.doing(trip, i, place);
      const side = doing === 'abreast' ? abreastPlace(place.at, place.rank, door.opening.width_m) : undefined;
      const passage = passageOf(doing ?? 'through', body, door.opening, !forward, chance, side);
      const duration_us = Math.round(passage.leave_s * SECOND_US);
      const atHeel = i > 0 && member.is === 'pet';
      if (place.at === 0 && !atHeel) {
        ahead = rank;
        rank = [];
      }
      const [beside] = rank;
      if (beside) wanted_us = Math.max(wanted_us, beside.enter_us + lag_us(atHeel ? HEEL_LAG : ABREAST_LAG, chance));
      if (!atHeel)
        wanted_us = Math.max(wanted_us, ...ahead.map((use) => after(use, place.at, body, duration_us, door, chance)));
      // A pet at heel keeps to its human, and squeezes past whoever is in the way.
      const free_us = atHeel ? wanted_us : doorway.admit(body, wanted_us, forward, duration_us, chance.at(DRAW.wait));
      const { enter_us, swing } = leaf ? leaf.admit(body, free_us) : { enter_us: free_us, swing: null };
      this.doorways.swings(index, swing);
      const kind = doing ?? doorway.company(body, forward, enter_us) ?? 'through';
      const visit = visitOf(index, body, passage, enter_us, forward, kind, NO_ENTRY);
      const use = { body, forward, stops: stops(kind), enter_us, leave_us: visit.leave_us };
      rank.unshift(use);
      this.doorways.use(index, use);
      if (visit.cross_us === null) crossed = false;
      left_us = Math.max(left_us, visit.leave_us);
      this.doorways.enters(visit, body, passage);
    });
    return { left_us, crossed };
  }

  /** What a member sets out to do here; null where it depends on whom they meet. */
  private doing({ members, at, manner, atHeel }: Trip, i: number, { rank }: Place<Body>): PassageKind | null {
    if (at === 0 && manner !== null && i === 0) return manner;
    if (rank.length === 2) return 'abreast';
    if (atHeel && (i === 0 || (members[i] as Mover).is === 'pet')) return 'at-heel';
    return members.length > 1 ? 'close-behind' : null;
  }

  private bodyOf(trip: Trip, member: Mover, i: number, { opening }: CrowdDoor): Body {
    const load = i === 0 && trip.load !== null ? trip.load : trip.outdoors ? member.luggage : null;
    const who = laden(member.name, load);
    const walker = this.walkers[who] as Walker;
    return drawBody(who, walker, member.number, opening, this.home_pace, this.bodies.nth(member.number));
  }
}

/**
 * When the rank behind may come at the earliest. The doorway keeps apart those who don't fit side by side; those who do
 * walk one behind the other all the same, and don't overtake.
 */
function after(ahead: Use, at: 0 | 1, body: Body, duration_us: number, { opening }: CrowdDoor, chance: Stream): number {
  if (!fitsAbreast(ahead.body, body, opening)) return ahead.enter_us;
  // The second of a rank comes after the first, who has kept the distance.
  const kept_us = at === 0 ? lag_us(CLOSE_BEHIND_LAG, chance) : 0;
  return Math.max(ahead.enter_us + kept_us, ahead.leave_us + kept_us - duration_us);
}

function lag_us({ value: { low, high } }: typeof ABREAST_LAG, chance: Stream): number {
  return Math.round(uniform(chance.at(DRAW.lag), low, high) * SECOND_US);
}
