/** One replicate of a crowd taken apart: what each stage is given, so that each can be timed alone. */
import type { Body } from '../src/agents/body.js';
import { Crowd } from '../src/agents/crowd.js';
import { breaksOf } from '../src/agents/motion/motion.js';
import type { Passage } from '../src/agents/motion/passage.js';
import type { Visit } from '../src/agents/visit.js';
import { LogicHost } from '../src/counter/host.js';
import type { Direction, Logic } from '../src/counter/logic.js';
import { makeLogic } from '../src/counter/make-logic.js';
import type { LogicChoice } from '../src/counter/schema.js';
import { Stream } from '../src/engine/stream.js';
import type { Design } from '../src/scenario/schema.js';
import { Inputs } from '../src/sensors/inputs.js';
import type { Shadow } from '../src/sensors/door-sensors.js';
import { isBarrier } from '../src/sensors/mounted.js';
import { Barriers } from '../src/sensors/light-barrier/barriers.js';
import { controllerOf, crowdPlan, mountedBeams } from '../src/simulate/plan.js';

export interface Seen {
  readonly visit: Visit;
  readonly body: Body;
  readonly passage: Passage;
}
/** Visits that overlap in time, and when nothing more can join them. */
export interface Episode {
  readonly seen: readonly Seen[];
  readonly shadows: readonly Shadow[];
  readonly settled_us: number;
}
export interface LevelChange {
  readonly time_us: number;
  readonly mask: number;
}
export interface Tally {
  readonly time_us: number;
  readonly direction: Direction;
}

export interface Recording {
  readonly design: Design;
  readonly doorStream: Stream;
  readonly barriers: Barriers;
  readonly logic: Logic;
  readonly episodes: readonly Episode[];
  readonly visits: readonly Seen[];
  readonly changes: readonly LevelChange[];
  readonly tallies: readonly Tally[];
}

export function record(design: Design): Recording {
  const replicate = Stream.root(String(design.seed)).child('replicate', '1');
  const visits: Seen[] = [];
  new Crowd(crowdPlan(design), replicate.child('crowd')).run((visit, body, passage) =>
    visits.push({ visit, body, passage }),
  );

  const door = design.doors[0]!;
  const doorStream = replicate.child('door', door.name);
  const barriers = new Barriers(mountedBeams(design, door).filter(isBarrier), doorStream);
  const episodes = episodesOf(visits).map((seen, i, all) => ({
    seen,
    shadows: seen.map((one) => shadowOf(one, barriers)),
    settled_us: all[i + 1]?.[0]?.visit.enter_us ?? Infinity,
  }));
  const changes: LevelChange[] = [];
  sense(design, doorStream, episodes, (time_us, mask) => changes.push({ time_us, mask }));

  const logic = makeLogic(design.logics[0] as LogicChoice, design);
  const tallies: Tally[] = [];
  decide(logic, changes, (time_us, direction) => tallies.push({ time_us, direction }));
  return { design, doorStream, barriers, logic, episodes, visits, changes, tallies };
}

function episodesOf(visits: readonly Seen[]): Seen[][] {
  const episodes: Seen[][] = [];
  let end_us = -Infinity;
  for (const one of visits) {
    if (one.visit.enter_us > end_us) episodes.push([]);
    episodes[episodes.length - 1]!.push(one);
    end_us = Math.max(end_us, one.visit.leave_us);
  }
  return episodes;
}

export function shadowOf({ visit, body, passage }: Seen, barriers: Barriers): Shadow {
  const breaks = barriers.paths.map((path) => {
    const out: number[] = [];
    breaksOf(body, passage.motion, path.line, path.clearance, out);
    return out.map((time_s) => visit.enter_us + time_s * 1_000_000);
  });
  return { visit: visit.number, body: body.number, breaks };
}

/** Sensors and inputs: shadows in, levels out. */
export function sense(
  design: Design,
  doorStream: Stream,
  episodes: readonly Episode[],
  sink: (time_us: number, mask: number) => void,
): void {
  const door = design.doors[0]!;
  const barriers = new Barriers(mountedBeams(design, door).filter(isBarrier), doorStream);
  const inputs = new Inputs(controllerOf(design, door), doorStream.child('controller'), sink);
  for (const { shadows, settled_us } of episodes) {
    barriers.episode(shadows);
    for (const edge of barriers.edgesUntil(settled_us)) inputs.edge(edge);
    inputs.settle(settled_us);
  }
}

/** A logic: levels in, tallies out. */
export function decide(
  logic: Logic,
  changes: readonly LevelChange[],
  onTally: (time_us: number, direction: Direction) => void,
): void {
  const host = new LogicHost(logic, { onTally });
  for (const { time_us, mask } of changes) host.inputMask(time_us, mask);
}
