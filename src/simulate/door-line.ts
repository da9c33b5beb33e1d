/** One door's part of the way through: visits in, and shadows, edges, levels, tallies and scores out. */
import type { Body } from '../agents/body.js';
import type { Passage } from '../agents/motion/passage.js';
import type { Visit } from '../agents/visit.js';
import type { AnyLogic, HostSnapshot } from '../counter/host.js';
import type { Stream } from '../engine/stream.js';
import { SECOND_US } from '../engine/time.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { DriftTrack } from '../score/drift-bands.js';
import type { HourlyTrack } from '../score/hourly.js';
import type { DoorRecord } from '../score/replicate-record.js';
import type { Shadow } from '../sensors/door-sensors.js';
import { Inputs } from '../sensors/inputs.js';
import { Barriers } from '../sensors/light-barrier/barriers.js';
import { isBarrier } from '../sensors/mounted.js';
import type { CountHooks } from './door-count.js';
import { DoorCount } from './door-count.js';
import { clockOf, controllerOf, mountedBeams, longestDelay } from './plan.js';
import { type RestartGate, gateOf } from './restart-gate.js';
import { shadowOf } from './shadow.js';

export interface LineHooks extends CountHooks {
  /** Somebody enters an empty doorway at `start_us`: where all stands then can be asked for, before this hook returns. */
  opens?(start_us: number, moment: DoorMoment): void;
}

/** A door between two visits. */
export interface DoorMoment {
  /** How long after it happened a logic may learn of an edge, microseconds. */
  readonly delay_us: number;
  /** Where each logic stands. */
  snapshots(): HostSnapshot[];
  /** Its sensors without its rangers, to go on another way. */
  sensors(): LineSensors;
}

/** What of a door's sensors and controller runs on: light barriers, inputs, restarts. */
export interface LineSensors {
  readonly barriers: Barriers;
  readonly inputs: Inputs;
  /** Null for a controller that never restarts. */
  readonly gate: RestartGate | null;
}

/** What a door needs to know of the rangers that the house reads. */
export interface DoorRangers {
  /** Every edge before this has been told, microseconds. */
  readonly settled_us: number;
  /** How long after it happened a logic may learn of an edge of the door's rangers, microseconds. */
  delay_us(door: number): number;
}
const NO_RANGERS: DoorRangers = { settled_us: Infinity, delay_us: () => 0 };

export class DoorLine implements DoorMoment {
  private readonly barriers: Barriers;
  private readonly inputs: Inputs;
  /** Null for a controller that never restarts. */
  private readonly gate: RestartGate | null;
  private readonly count: DoorCount;
  /** Visits that overlap in time, and when the last of them leaves. */
  private episode: Shadow[] = [];
  private episodeStart = 0;
  private episodeEnd = -Infinity;
  private readonly rangers: DoorRangers;
  readonly delay_us: number;

  /**
   * @param logics of this door, in the design's order
   * @param rangers of the house; they are brought up to date before this door is asked for anything
   */
  constructor(
    design: Design,
    door: DesignDoor,
    logics: readonly AnyLogic[],
    replicate: Stream,
    private readonly hooks: LineHooks,
    rangers: DoorRangers | null,
  ) {
    const clock_us = clockOf(design);
    this.barriers = new Barriers(
      mountedBeams(design, door).filter(isBarrier),
      replicate.child('door', door.name),
      clock_us,
    );
    this.rangers = rangers ?? NO_RANGERS;
    this.delay_us = longestDelay(design, door, this.rangers);
    const count = new DoorCount(design, door, logics, this.delay_us, hooks);
    this.count = count;
    const gate = gateOf(design, door, replicate, count);
    this.gate = gate;
    this.inputs = new Inputs(
      controllerOf(design, door),
      replicate.child('controller', door.controller),
      gate
        ? (time_us, mask, _before, readings) => gate.input(time_us, mask, readings)
        : (time_us, mask, before, readings) => count.input(time_us, mask, before, readings),
    );
  }

  get drift(): readonly DriftTrack[] {
    return this.count.drift;
  }

  get hourly(): HourlyTrack {
    return this.count.hourly;
  }

  /** Whether any of its logics asks for readings. */
  get wantsReadings(): boolean {
    return this.count.wantsReadings;
  }

  snapshots(): HostSnapshot[] {
    return this.count.snapshots();
  }

  sensors(): LineSensors {
    const { barriers, inputs, gate } = this;
    return {
      barriers: barriers.fork(true),
      inputs: inputs.fork(inputs.sink, true),
      gate: gate?.fork(gate.hooks) ?? null,
    };
  }

  /** The next visit; visits come in order of entering. */
  visit(visit: Visit, body: Body, passage: Passage): void {
    if (visit.enter_us > this.episodeEnd) {
      this.flush();
      this.settle(visit.enter_us);
      this.episodeStart = visit.enter_us;
      this.hooks.opens?.(visit.enter_us, this);
    }
    this.episode.push(shadowOf(visit, body, passage, this.barriers.paths));
    this.episodeEnd = Math.max(this.episodeEnd, visit.leave_us);
    this.count.visit(visit);
  }

  /** An edge of one of the door's rangers; edges may come before the visits that cause them are flushed. */
  rangerEdge(beam: number, time_us: number, level: 0 | 1): void {
    this.inputs.known({ time_us, beam, level });
  }

  /** A reading of one of them, for logics that ask for readings. @param distance_um whole micrometres, −1 without echo */
  rangerReading(beam: number, time_us: number, distance_um: number): void {
    this.inputs.reading(beam, time_us, distance_um);
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
    const last = end + this.count.latency_us;
    this.gate?.until(last);
    if (this.gate?.down !== true) this.count.timers(last);
    return { logics: this.count.close(), breaks: this.count.breaks, unmet_parties };
  }

  /** Nothing more is wanted of it: what its logics hold outside of themselves is given back. */
  abandon(): void {
    this.count.abandon();
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
    if (this.gate?.down !== true) this.count.timers(until_us - 1);
    this.count.advance(until_us);
  }
}
