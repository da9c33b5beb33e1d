/**
 * Parties one at a time: the people the crowd would send through a door, each party alone in the doorway.
 *
 * Made by the crowd itself, so bodies, paces and what two do together are those of a run; only the clock differs:
 * parties set out one after the other, so far apart that none meets the next.
 */
import type { Body } from '../agents/body.js';
import { OUTSIDE } from '../agents/outside.js';
import { Crowd } from '../agents/crowd.js';
import type { Passage } from '../agents/motion/passage.js';
import type { MixKind, Walker } from '../agents/schema.js';
import type { Visit } from '../agents/visit.js';
import type { Stream } from '../engine/stream.js';
import { HOUR_US } from '../engine/time.js';
import type { DesignDoor } from '../scenario/schema.js';

/** One body on its way through a doorway. */
export interface Arrival {
  readonly visit: Visit;
  readonly body: Body;
  readonly passage: Passage;
}
/** Those who set out together, in order of entering. */
export type PartyAlone = readonly Arrival[];

export interface PartyChoice {
  readonly who: string;
  readonly kind: MixKind;
  /** Share of parties that go forward; the others come from the other side. */
  readonly forward_share: number;
}

/** One in a hundred hours: parties never meet, so nobody waits for anybody but their own party. */
const PER_HOUR = 0.01;

/** How many bodies a party has. */
function partySize(kind: MixKind): 1 | 2 {
  return kind === 'abreast' || kind === 'close-behind' || kind === 'against' ? 2 : 1;
}

/**
 * The first `count` parties of a crowd that holds one entry of a mix alone. Party n is the same whatever `count` is.
 * About 10 µs a party.
 *
 * @param door its opening and home pace count; its mix, rooms and beams do not
 * @param stream the crowd's
 */
export function partiesAlone(
  door: DesignDoor,
  walkers: Readonly<Record<string, Walker>>,
  choice: PartyChoice,
  count: number,
  stream: Stream,
): PartyAlone[] {
  const { who, kind, forward_share } = choice;
  const size = partySize(kind);
  // Gaps are exponential: twice the mean time is enough but for the rare crowd that needs a longer clock.
  for (let hours = (2 * count + 20) / PER_HOUR; ; hours *= 2) {
    const crowd = new Crowd(
      {
        people_at_start: [],
        doors: [
          {
            name: door.name,
            from: OUTSIDE,
            to: OUTSIDE,
            opening: { width_m: door.width_m, zone_m: door.zone_m },
            // Nothing hangs in it: parties alone find the way open.
            traffic: {
              ...door.traffic,
              arrivals_per_hour: PER_HOUR,
              forward_share,
              one_way: true,
              mix: [{ who, kind, share: 1 }],
            },
          },
        ],
        walkers,
        clock_us: hours * HOUR_US,
        starts_at_h: 0,
      },
      stream,
    );
    const parties: Arrival[][] = [];
    crowd.run((visit, body, passage) => {
      (parties[Math.floor(visit.body / size)] ??= []).push({ visit, body, passage });
    });
    const whole = parties.filter((party) => party.length === size);
    if (whole.length >= count) return whole.slice(0, count);
  }
}

/** The party with its first visit entering at `enter_us`, nothing else changed. */
export function retimed(party: PartyAlone, enter_us: number): PartyAlone {
  const shift = enter_us - (party[0] as Arrival).visit.enter_us;
  return party.map(({ visit, body, passage }) => ({
    visit: {
      ...visit,
      enter_us: visit.enter_us + shift,
      cross_us: visit.cross_us === null ? null : visit.cross_us + shift,
      leave_us: visit.leave_us + shift,
    },
    body,
    passage,
  }));
}
