/**
 * Rare kinds of passage, looked at more closely.
 *
 * What a run sees a dozen times says little about how often it goes wrong. So extra parties of that walker and kind go
 * through the same door, past the same sensors, under the headline's logic, each alone: people, noise and clock have
 * streams of their own and change nothing in the run. How often the kind comes is still what the run says. What
 * neighbours in the doorway do to it is left out.
 */
import type { MixKind, PassageKind } from '../agents/schema.js';
import type { AnyLogic } from '../counter/host.js';
import type { OutsideLogics } from '../counter/make-logic.js';
import { Stream } from '../engine/stream.js';
import { HOUR_US } from '../engine/time.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { kindsSeen } from '../score/by-whom.js';
import type { RareKind } from '../score/kinds-per-week.js';
import { type CaseCounts, type DoorCounts, type KindCounts, wrongOf } from '../score/door-counts.js';
import { ratioEstimate, sum, zeroEstimate } from '../score/estimates.js';
import { learningOf_us, restAfter_us, runAlone, spacedOut } from './alone.js';
import { logicsAt } from './logics-at.js';
import { type PartyAlone, partiesAlone } from './parties.js';
import { hasRangers } from './plan.js';
import { walkersKnown } from './walkers-known.js';

/** With fewer visits over all replicates a kind is rare. A choice of ours. */
export const RARE_VISITS = 100;
/** Extra parties of a kind go in blocks, each with noise of its own: what replicates are to a run. */
const MOST_BLOCKS = 20;
const MOST_OF_A_KIND = 400;
/** Fewer leave too little to form an interval over. */
const FEWEST_OF_A_KIND = 40;
const FEWEST_A_BLOCK = 8;
/** A house of many doors has many rare kinds: as far as each still has its fewest, no more extra parties than this. Rangers take their time. */
const MOST_PARTIES = { barriers: 3000, rangers: 800 } as const;

/** Kinds that need nobody from the other side and nothing but people. */
const LONE = ['through', 'turn-back', 'linger', 'reach', 'abreast', 'close-behind'] as const satisfies MixKind[];

/**
 * Extra visits for the kinds that were seen at a door, but rarely: one list per door.
 *
 * @param replicates of each door, with the first logic
 */
export function rareKinds(
  design: Design,
  replicates: readonly (readonly DoorCounts[])[],
  outside?: OutsideLogics,
): RareKind[][] {
  const known = walkersKnown(design);
  const rare = design.doors.map((door, d) =>
    kindsSeen(door.traffic.mix, replicates[d] ?? []).flatMap(({ who, kind, cases }) => {
      const visits = sum(cases.map((counts) => counts.visits));
      return visits < RARE_VISITS && isLone(kind) && known.has(who) ? [{ who, kind }] : [];
    }),
  );
  const most = hasRangers(design) ? MOST_PARTIES.rangers : MOST_PARTIES.barriers;
  const share = Math.floor(most / rare.flat().length);
  const parties = Math.max(FEWEST_OF_A_KIND, Math.min(MOST_OF_A_KIND, share));
  return design.doors.map((door, d) =>
    (rare[d] ?? []).map(({ who, kind }) => oversampled(design, door, who, kind, { parties, outside })),
  );
}

function isLone(kind: PassageKind): kind is (typeof LONE)[number] {
  return LONE.some((one) => one === kind);
}

/** About 20 µs a party with light barriers, 2 ms with two rangers. `parties`: how many, at least 40. */
export function oversampled(
  design: Design,
  door: DesignDoor,
  who: string,
  kind: (typeof LONE)[number],
  {
    parties = MOST_OF_A_KIND,
    outside,
  }: { readonly parties?: number; readonly outside?: OutsideLogics | undefined } = {},
): RareKind {
  const choice = design.logics[0]!;
  const logic = logicsAt(design, door, outside)[0]!;
  const stream = Stream.root(String(design.seed)).child('rare kind', door.name, who, kind);
  const forward_share = design.household ? 0.5 : forwardShare(door, kind);
  const blocks = Math.min(MOST_BLOCKS, Math.floor(parties / FEWEST_A_BLOCK));
  const size = Math.floor(parties / blocks);
  const count = blocks * size;
  const all = partiesAlone(door, design.walkers, { who, kind, forward_share }, count, stream.child('crowd'));
  const from_us = learningOf_us(design);
  const rest_us = restAfter_us(choice, logic);
  const cases = Array.from({ length: blocks }, (_, block) => {
    const own = stream.child('block').nth(block);
    const some = all.slice(block * size, (block + 1) * size);
    return blockOf(design, door, logic, spacedOut(some, from_us, rest_us, own.nth(0)), own.nth(1));
  });
  const visits = cases.map((counts) => counts.visits);
  const wrong = ratioEstimate(cases.map(wrongOf), visits, { nothing: 'no visits' });
  const signed = { nothing: 'no visits', signed: true } as const;
  const net_error =
    wrong.value === 0
      ? zeroEstimate(sum(visits), signed)
      : ratioEstimate(
          cases.map((counts) => counts.net_error),
          visits,
          signed,
        );
  return { who, kind, visits: sum(visits), wrong, net_error };
}

/**
 * Which way such visits go in a run. Whoever crossed comes back, through or in the same company; who turned back,
 * lingered or reached set out to, once.
 */
function forwardShare(door: DesignDoor, kind: (typeof LONE)[number]): number {
  const returns = !door.traffic.one_way && (kind === 'through' || kind === 'abreast' || kind === 'close-behind');
  return returns ? 0.5 : door.traffic.forward_share;
}

function blockOf(
  design: Design,
  door: DesignDoor,
  logic: AnyLogic,
  parties: readonly PartyAlone[],
  noise: Stream,
): CaseCounts & Pick<KindCounts, 'net_error'> {
  const last = parties[parties.length - 1]!;
  // False alarms and strays come until the clock's end: it must hold all parties.
  const hours = last[last.length - 1]!.visit.leave_us / HOUR_US;
  const { logics } = runAlone({ ...design, hours }, door, logic, parties, noise);
  // One walker and kind; tallies of nobody are in no kind.
  return logics[0]!.kinds[0]!;
}
