/**
 * How often one walk alone through a door is counted wrong: the prediction that a walk test is about.
 *
 * What a run says of a kind of passage holds for a day with others about. Whoever tests a built door walks alone, or as
 * one party, and reads the counter before and after. So the same design is asked the same question: parties of one
 * kind, each alone, and of each what was counted, both ways.
 */
import type { MixKind } from '../agents/schema.js';
import type { Direction } from '../counter/logic.js';
import type { AnyLogic } from '../counter/host.js';
import { Stream } from '../engine/stream.js';
import { HOUR_US, SECOND_US } from '../engine/time.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { LEVEL } from '../score/jackknife.js';
import type { PredictedShare } from '../score/walk-test/claim.js';
import type { BothWays } from '../score/walk-test/rows.js';
import { clopperPearson } from '../score/walk-test/exact.js';
import { learningOf_us, restAfter_us, runAlone, spacedOut } from './alone.js';
import { houseRangers } from './house-rangers.js';
import { type PartyAlone, partiesAlone } from './parties.js';
import { logicsAt } from './logics-at.js';
import { hasRangers, longestDelay } from './plan.js';

/** One walk of one party: what it truly was, and what the logic made of it. */
export interface WalkAlone {
  /** Which way its first one set out. */
  readonly direction: Direction;
  readonly truth: BothWays;
  readonly counted: BothWays;
}

export interface WalkChoice {
  readonly who: string;
  readonly kind: MixKind;
}

const NOBODY: BothWays = { forward: 0, backward: 0 };
/** Walks that a prediction rests on. */
export const WALKS = { barriers: 2500, rangers: 600 } as const;
/** How long after a walk what is counted is still its own, besides what logic and sensors need. */
const SLACK_US = 2 * SECOND_US;

/** Whether what was counted differs from what was walked. */
export function isWrong({ truth, counted }: WalkAlone): boolean {
  return truth.forward !== counted.forward || truth.backward !== counted.backward;
}

export interface WalkPrediction extends PredictedShare {
  /** How many walks it rests on. */
  readonly walks: number;
  /** Who goes through in a walk that sets out forward, and in one that sets out backward; nobody where none crosses. */
  readonly crosses: Readonly<Record<Direction, BothWays>>;
}

/** Share of wrong walks of a kind, half of them each way, with its exact 95 % interval. Seeded by `stream`. */
export function predictWalk(
  design: Design,
  door: DesignDoor,
  logic: Design['logics'][number],
  choice: WalkChoice,
  stream: Stream,
): WalkPrediction {
  const walks = hasRangers(design) ? WALKS.rangers : WALKS.barriers;
  const all = walksAlone(design, door, logic, choice, walks, stream);
  const wrong = all.filter(isWrong).length;
  const crossing = (direction: Direction) =>
    all.find((walk) => walk.direction === direction && walk.truth.forward + walk.truth.backward > 0)?.truth ?? NOBODY;
  return {
    value: wrong / walks,
    ...clopperPearson(wrong, walks, LEVEL),
    walks,
    crosses: { forward: crossing('forward'), backward: crossing('backward') },
  };
}

/** How long after somebody has left the doorway the logic may still speak of it, microseconds. */
export function lastTally_us(design: Design, door: DesignDoor, choice: Design['logics'][number]): number {
  const rangers = houseRangers(design, Stream.root('never drawn from'), { edge: () => {} });
  const delay_us = longestDelay(design, door, rangers);
  return logicOf(design, door, choice).latency_us + delay_us;
}

/** A logic as it counts at one door. */
function logicOf(design: Design, door: DesignDoor, choice: Design['logics'][number]): AnyLogic {
  return logicsAt({ ...design, logics: [choice] }, door)[0]!;
}

/** So many walks of a kind, each alone, in the order they were walked. */
export function walksAlone(
  design: Design,
  door: DesignDoor,
  choice: Design['logics'][number],
  { who, kind }: WalkChoice,
  count: number,
  stream: Stream,
): WalkAlone[] {
  const logic = logicOf(design, door, choice);
  const sent = partiesAlone(door, design.walkers, { who, kind, forward_share: 0.5 }, count, stream.child('crowd'));
  const parties = spacedOut(sent, learningOf_us(design), restAfter_us(choice, logic), stream.child('clock'));
  const ends_us = parties.map(lastLeaves_us);
  const counted = parties.map(() => ({ forward: 0, backward: 0 }));
  const after_us = lastTally_us(design, door, choice) + SLACK_US;
  let at = 0;
  // Spurious tallies come until the clock's end: it must hold all walks.
  const long = { ...design, hours: ends_us[ends_us.length - 1]! / HOUR_US };
  runAlone(long, door, logic, parties, stream.child('noise'), (time_us, direction) => {
    while (at < parties.length && ends_us[at]! + after_us < time_us) at++;
    const party = parties[at];
    // Between walks nobody reads the counter.
    if (party !== undefined && time_us >= party[0]!.visit.enter_us) counted[at]![direction]++;
  });
  return parties.map((party, i) => ({
    direction: party[0]!.visit.direction,
    truth: truthOf(party),
    counted: counted[i]!,
  }));
}

function lastLeaves_us(party: PartyAlone): number {
  return Math.max(...party.map(({ visit }) => visit.leave_us));
}

function truthOf(party: PartyAlone): BothWays {
  const truth = { forward: 0, backward: 0 };
  for (const { visit } of party) if (visit.cross_us !== null) truth[visit.direction] += visit.persons;
  return truth;
}
