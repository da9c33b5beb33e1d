/** One door's part of the way through: visits in, and shadows, edges, levels, tallies and scores out. */
import type { Body } from '../agents/body.js';
import { WEEKDAYS } from '../agents/household/schema.js';
import type { Passage } from '../agents/motion/passage.js';
import type { Visit } from '../agents/visit.js';
import { hours } from '../agents/arrivals.js';
import { LogicHost } from '../counter/host.js';
import type { Direction, Level, Logic } from '../counter/logic.js';
import type { Stream } from '../engine/stream.js';
import { SECOND_US } from '../engine/time.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { DoorCounter } from '../score/door-counts.js';
import { DoorScorer } from '../score/door-scorer.js';
import { DriftTrack } from '../score/drift-bands.js';
import { HourlyTrack } from '../score/hourly.js';
import type { DoorRecord } from '../score/metrics.js';
import { trueNetOf } from '../score/truth.js';
import { Restarts } from '../sensors/controllers/restarts.js';
import { Inputs } from '../sensors/inputs.js';
import type { Shadow } from '../sensors/door-sensors.js';
import { isBarrier } from '../sensors/mounted.js';
import { Barriers } from '../sensors/light-barrier/barriers.js';
import { clockOf, controllerOf, mountedBeams, readingDelay } from './plan.js';
import { RestartGate } from './restart-gate.js';
import { shadowOf } from './shadow.js';

export interface DoorHooks {
  edge?(beam: number, time_us: number, level: Level): void;
  tally(logic: number, time_us: number, direction: Direction): void;
}

/** What a door needs to know of the rangers that the house reads. */
export interface DoorRangers {
  /** Every edge before this has been told, microseconds. */
  readonly settled_us: number;
  /** How long after it happened a logic may learn of an edge of the door's rangers, microseconds. */
  delay_us(door: number): number;
}
const NO_RANGERS: DoorRangers = { settled_us: Infinity, delay_us: () => 0 };

export class DoorLine {
  private readonly barriers: Barriers;
  private readonly inputs: Inputs;
  /** Null for a controller that never restarts. */
  private readonly gate: RestartGate | null;
  private readonly hosts: readonly LogicHost[];
  private readonly scorers: readonly DoorScorer[];
  private readonly counters: readonly DoorCounter[];
  readonly drift: readonly DriftTrack[];
  readonly hourly: HourlyTrack;
  private readonly breaks: number[];
  /** Visits that overlap in time, and when the last of them leaves. */
  private episode: Shadow[] = [];
  private episodeStart = 0;
  private episodeEnd = -Infinity;
  private readonly longestLatency: number;
  private readonly rangers: DoorRangers;
  private readonly delay_us: number;

  /** @param rangers of the house; they are brought up to date before this door is asked for anything */
  constructor(
    design: Design,
    door: DesignDoor,
    logics: readonly Logic[],
    replicate: Stream,
    hooks: DoorHooks,
    rangers: DoorRangers | null,
  ) {
    const clock_us = clockOf(design);
    this.barriers = new Barriers(
      mountedBeams(design, door).filter(isBarrier),
      replicate.child('door', door.name),
      clock_us,
    );
    this.breaks = door.beams.map(() => 0);
    const controller = controllerOf(design, door);
    const chance = replicate.child('controller', door.controller);
    const gate =
      controller.restarts_per_week > 0
        ? new RestartGate(new Restarts(controller, chance.child('restarts'), clock_us), {
            levels: (time, mask, before) => this.levels(time, mask, before, hooks),
            down: (time) => this.wakesUntil(time),
            up: (time, mask, before) => {
              this.told(time, mask, before, hooks);
              for (const host of this.hosts) host.reset(time, mask);
            },
          })
        : null;
    this.gate = gate;
    this.inputs = new Inputs(
      controller,
      chance,
      gate ? (time, mask) => gate.input(time, mask) : (time, mask, before) => this.levels(time, mask, before, hooks),
    );
    this.counters = logics.map(() => new DoorCounter());
    this.drift = logics.map(() => new DriftTrack(clock_us));
    this.hourly = new HourlyTrack(clock_us, hours(design.starts_at), WEEKDAYS.indexOf(design.starts_on));
    this.rangers = rangers ?? NO_RANGERS;
    this.delay_us = Math.max(readingDelay(design, door), this.rangers.delay_us(design.doors.indexOf(door)));
    this.scorers = logics.map(
      (logic, l) => new DoorScorer(logic.latency_us + this.delay_us, this.counters[l] as DoorCounter),
    );
    this.hosts = logics.map(
      (logic, l) =>
        new LogicHost(logic, {
          onTally: (time_us, direction) => {
            (this.scorers[l] as DoorScorer).tally(time_us, direction);
            (this.drift[l] as DriftTrack).tallied(time_us, direction === 'forward' ? 1 : -1);
            hooks.tally(l, time_us, direction);
          },
        }),
    );
    this.longestLatency = Math.max(...logics.map((logic) => logic.latency_us));
  }

  /** The next visit; visits come in order of entering. */
  visit(visit: Visit, body: Body, passage: Passage): void {
    if (visit.enter_us > this.episodeEnd) {
      this.flush();
      this.settle(visit.enter_us);
      this.episodeStart = visit.enter_us;
    }
    this.episode.push(shadowOf(visit, body, passage, this.barriers.paths));
    this.episodeEnd = Math.max(this.episodeEnd, visit.leave_us);
    for (const scorer of this.scorers) scorer.visit(visit);
    if (visit.cross_us === null) return;
    for (const track of this.drift) track.crossed(visit.cross_us, trueNetOf(visit));
    this.hourly.crossed(visit.cross_us, visit.direction === 'forward', visit.persons);
  }

  /** An edge of one of the door's rangers; edges may come before the visits that cause them are flushed. */
  rangerEdge(beam: number, time_us: number, level: Level): void {
    this.inputs.known({ time_us, beam, level });
  }

  /** No visit before `time_us` is still to come. Gives back the time up to which everything is said. */
  advance(time_us: number): number {
    if (this.episode.length > 0) {
      if (time_us <= this.episodeEnd) return this.episodeStart;
      this.flush();
    }
    this.settle(time_us);
    return Math.min(time_us, this.rangers.settled_us);
  }

  /** Late enough for the last clear edge to be read and every timer to run out. */
  end_us(clock_us: number): number {
    return Math.max(clock_us, this.episodeEnd) + 30 * SECOND_US + this.delay_us;
  }

  /** The clock has ended: visits under way finish, timers expire. Rangers have been read to {@link end_us}. */
  close(clock_us: number, unmet_parties: number): DoorRecord {
    this.flush();
    const end = this.end_us(clock_us);
    this.settle(end);
    this.gate?.until(end + this.longestLatency);
    if (this.gate?.down !== true) this.wakesUntil(end + this.longestLatency);
    for (const scorer of this.scorers) scorer.close();
    return { logics: this.counters.map((counter) => counter.counts()), breaks: this.breaks, unmet_parties };
  }

  private flush(): void {
    if (this.episode.length === 0) return;
    this.barriers.episode(this.episode);
    this.episode = [];
  }

  private settle(wanted_us: number): void {
    const until_us = Math.min(wanted_us, this.rangers.settled_us);
    for (const edge of this.barriers.edgesUntil(until_us)) this.inputs.edge(edge);
    this.inputs.settle(until_us);
    this.gate?.until(until_us - 1);
    if (this.gate?.down !== true) this.wakesUntil(until_us - 1);
    for (const scorer of this.scorers) scorer.advance(until_us);
  }

  private wakesUntil(until_us: number): void {
    for (const host of this.hosts) host.finish(until_us);
  }

  private levels(time_us: number, mask: number, before: number, hooks: DoorHooks): void {
    this.told(time_us, mask, before, hooks);
    for (const host of this.hosts) host.inputMask(time_us, mask);
  }

  /** What changed since the controller last looked is counted and told. */
  private told(time_us: number, mask: number, before: number, hooks: DoorHooks): void {
    const changed = mask ^ before;
    for (let beam = 0; beam < this.breaks.length; beam++) {
      if ((changed & (1 << beam)) === 0) continue;
      const level: Level = (mask & (1 << beam)) !== 0 ? 1 : 0;
      if (level === 1) this.breaks[beam]!++;
      hooks.edge?.(beam, time_us, level);
    }
  }
}
