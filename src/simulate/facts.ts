/**
 * Facts that follow from a scenario, before anything is counted: who can break which beam, how long the way from one
 * beam to the next takes, what the electronics can follow, who fits through.
 *
 * Statures and speeds are drawn from the same populations the crowd is drawn from, breaks are measured on the same
 * bodies going through alone; every share says how many it rests on. A fixed stream: no seed changes a fact.
 */
import { LONGEST_REACH } from '../agents/figures/legs.js';
import { SHOULDER_RATIO } from '../agents/figures/mix.js';
import { drawBody, fitsAbreast, walkerNamed } from '../agents/walkers.js';
import type { Body } from '../agents/body.js';
import { drawPerson, isOnFoot } from '../agents/population.js';
import type { Walker } from '../agents/schema.js';
import { Stream } from '../engine/stream.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { axisPaths } from '../sensors/axis-paths.js';
import { disturbs } from '../sensors/light-barrier/paths.js';
import { isBarrier } from '../sensors/mounted.js';
import type { MountedBeam } from '../sensors/mounted.js';
import { partShares } from './body-parts.js';
import type { Crossing } from './crossing-sample.js';
import { sampleCrossings, sharesByWalker } from './crossing-sample.js';
import { cautionsOf } from './fact-cautions.js';
import type { BeamFacts, DoorFacts, Met, OpeningFacts, Reach, ResponseFacts } from './fact-types.js';
import type { Arrival } from './parties.js';
import { partiesAlone } from './parties.js';
import { mountedBeams } from './plan.js';
import type { RangerDoor } from './ranger-facts.js';
import { rangerDoors } from './ranger-facts.js';
import { spacingFacts } from './spacing-facts.js';
import { lengthsOf } from './stretches.js';
import type { Weighted } from './weighted.js';
import { meanOf, quantilesOf, shareOf } from './weighted.js';

/** How closely it is looked. */
export interface FactOptions {
  /** Bodies drawn per group of people and per walker, for statures, speeds and breadths; 2000 by default. */
  readonly drawn?: number;
  /** Lone crossings measured per walker of the mix; 400 by default, 100 at a door with rangers. */
  readonly crossings?: number;
}

/** The middling bodies whose parts are looked at, and among how many. */
const MIDDLING = 9;
const MIDDLING_OF = 199;

/** Ages in whole years, both included. */
const GROUPS = [
  { who: 'adults', ages_y: [18, 80] },
  { who: 'children', ages_y: [9, 12] },
  { who: 'children', ages_y: [6, 8] },
  { who: 'children', ages_y: [3, 5] },
] as const;

/** Facts of every door. About 0.1 s a door, 0.5 s with rangers. */
export function deriveFacts(design: Design, options: FactOptions = {}): DoorFacts[] {
  const rangers = rangerDoors(design);
  return design.doors.map((door, d) =>
    doorFacts(design, door, rangers[d] as RangerDoor, Stream.root('facts').child('door', door.name), options),
  );
}

function doorFacts(
  design: Design,
  door: DesignDoor,
  rangers: RangerDoor,
  stream: Stream,
  { drawn = 2000, crossings: count = rangers.facts ? 100 : 400 }: FactOptions,
): DoorFacts {
  const beams = mountedBeams(design, door);
  const paths = axisPaths(beams);
  const crossings = sampleCrossings(design, door, paths, rangers.read, count, stream.child('crossings'));
  const groups = GROUPS.map(({ who, ages_y: [from, to] }) => ({
    who,
    ages_y: [from, to] as const,
    bodies: standing(door, peopleOf(from, to), drawn, stream.child('group', `${from}`)),
  }));
  const adults = (groups[0] as (typeof groups)[number]).bodies;
  const walkers = [...sharesByWalker(door)].map(([who, share]) => {
    const bodies = standing(door, walkerNamed(who, design.walkers), drawn, stream.child('walker', who));
    return { who, bodies, weighted: bodies.map((item) => ({ item, weight: share / bodies.length })) };
  });
  const middling = (['adult', 'child'] as const).map((who) => ({
    who,
    arrivals: middlingOf(design, door, who, stream.child('middling')),
  }));

  const beamFacts = beams.map((beam, i): BeamFacts => {
    const height_m = middleHeight(beam);
    const above = (bodies: readonly Standing[]) => shareOf(bodies.map(alike), (body) => body.stature_m > height_m);
    const across = beam.mount !== 'lintel';
    const broken = (item: Crossing): number =>
      item.rangers[i]?.breaks ?? (item.breaks[i] as readonly number[]).length / 2;
    return {
      beam: beam.name,
      mount: beam.mount,
      height_m,
      level: beam.line.from.z === beam.line.to.z,
      reach: !across
        ? []
        : [
            ...groups.map(({ who, ages_y, bodies }): Reach => ({ who, ages_y, above: above(bodies) })),
            ...walkers.map(({ who, bodies }): Reach => ({ who, ages_y: null, above: above(bodies) })),
          ],
      met: !across
        ? []
        : middling.map(
            ({ who, arrivals }): Met => ({
              who,
              stature_m: (arrivals[MIDDLING >> 1] as Arrival).body.stature_m,
              parts: partShares(arrivals, paths[i] as (typeof paths)[number]),
            }),
          ),
      broken: shareOf(crossings, (item) => broken(item) > 0),
      breaks_per_crossing: meanOf(crossings, broken),
      response: isBarrier(beam) ? responseFacts(crossings, i, beam.sensor.response_ms) : null,
      ranger: rangers.beamFacts(i, crossings),
    };
  });
  const everybody = walkers.flatMap(({ weighted }) => weighted);
  const facts: Omit<DoorFacts, 'cautions'> = {
    door: door.name,
    beams: beamFacts,
    spacings: spacingFacts(design, door, beams, crossings, everybody, rangers),
    opening: openingFacts(door, adults),
    zone: {
      zone_m: door.zone_m,
      least_m: beams.some(isBarrier) ? Math.max(...beams.filter(isBarrier).map(outermost)) + LONGEST_REACH.value : null,
      cut: shareOf(crossings, isCut),
    },
    interference: beams.filter(isBarrier).flatMap((source) =>
      beams
        .filter(isBarrier)
        .filter((victim) => victim !== source && disturbs(source, victim))
        .map((victim) => ({ emitter: source.name, receiver: victim.name })),
    ),
    rangers: rangers.facts,
  };
  return { ...facts, cautions: cautionsOf(facts, design, door) };
}

/** People from one whole year of age to the end of another. */
function peopleOf(from_y: number, to_y: number): Walker {
  const last = from_y >= 18 ? to_y : to_y + 1;
  return { kind: 'people', ages_y: [from_y, last], women_share: 0.5, with_infant: false };
}

/** What of a body needs no pose. */
type Standing = Pick<Body, 'stature_m' | 'speed_mps' | 'breadth_m'>;

function standing(door: DesignDoor, walker: Walker, count: number, stream: Stream): Standing[] {
  return Array.from({ length: count }, (_, n) => {
    // Of most people a quick look without limbs is enough.
    if (!isOnFoot(walker) || walker.load !== undefined)
      return drawBody('', walker, n, door, door.traffic.home_pace, stream.nth(n));
    const { stature_m, speed_mps, bideltoid_m } = drawPerson(walker, stream.nth(n), door.traffic.home_pace);
    return { stature_m, speed_mps, breadth_m: bideltoid_m };
  });
}

function alike<T>(item: T): Weighted<T> {
  return { item, weight: 1 };
}

/** Lone visits of the people in the middle of a walker's statures, in order of stature. */
function middlingOf(design: Design, door: DesignDoor, who: string, stream: Stream): Arrival[] {
  const choice = { who, kind: 'through', forward_share: 1 } as const;
  const arrivals = partiesAlone(door, design.walkers, choice, MIDDLING_OF, stream.child(who)).flat();
  const first = (MIDDLING_OF - MIDDLING) >> 1;
  return arrivals.toSorted((a, b) => a.body.stature_m - b.body.stature_m).slice(first, first + MIDDLING);
}

function middleHeight({ line }: MountedBeam): number {
  return (line.from.z + line.to.z) / 2;
}

function outermost({ line }: MountedBeam): number {
  return Math.max(Math.abs(line.from.y), Math.abs(line.to.y));
}

function responseFacts(crossings: readonly Weighted<Crossing>[], beam: number, response_ms: number): ResponseFacts {
  const shortest = (what: 'stretches' | 'gaps'): Weighted<number>[] =>
    crossings.flatMap(({ item, weight }) => {
      const lengths = lengthsOf(item.breaks[beam] as readonly number[], what);
      return lengths.length > 0 ? [{ item: 1000 * Math.min(...lengths), weight }] : [];
    });
  const breaks = shortest('stretches');
  const gaps = shortest('gaps');
  const tooShort = (ms: number) => ms < response_ms;
  return {
    response_ms,
    shortest_break_ms: quantilesOf(breaks, [0.025])?.[0] ?? null,
    unseen: shareOf(breaks, tooShort),
    shortest_gap_ms: quantilesOf(gaps, [0.025])?.[0] ?? null,
    bridged: shareOf(gaps, tooShort),
  };
}

function openingFacts(door: DesignDoor, adults: readonly Standing[]): OpeningFacts {
  const pairs = adults.map((one, i) => alike([one, adults[(i + 1) % adults.length] as Standing] as const));
  return {
    width_m: door.width_m,
    abreast: shareOf(pairs, ([a, b]) => fitsAbreast(a, b, door)),
    turned: shareOf(adults.map(alike), (body) => door.width_m < SHOULDER_RATIO.value * body.breadth_m),
  };
}

function isCut({ arrival, breaks }: Crossing): boolean {
  const end = arrival.passage.leave_s;
  return breaks.some((own) => own.length > 0 && ((own[0] as number) <= 0 || (own[own.length - 1] as number) >= end));
}
