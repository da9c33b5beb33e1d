/**
 * The counting half of a door: levels and readings in, as its controller gives them, and true visits beside them;
 * tallies, verdicts and counts out. It doesn't matter to it whether a simulation or a log speaks.
 */
import { clockHours } from '../engine/time.js';
import { WEEKDAYS } from '../agents/household/schema.js';
import type { Visit } from '../agents/visit.js';
import type { AnyLogic, DoorHost, HostSnapshot, HostStep } from '../counter/host.js';
import { hostOf } from '../counter/host.js';
import type { Direction, Level, Readings } from '../counter/logic.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { DoorCounts } from '../score/door-counts.js';
import { DoorCounter } from '../score/door-counts.js';
import { DoorScorer } from '../score/door-scorer.js';
import { DriftTrack } from '../score/drift-bands.js';
import { HourlyTrack } from '../score/hourly.js';
import type { Verdict } from '../score/match.js';
import type { Sign } from '../score/score-sink.js';
import { trueNetOf } from '../score/truth.js';
import { clockOf } from './plan.js';

/** What a door tells while it counts. Logics by their index. */
export interface CountHooks {
  tally(logic: number, time_us: number, direction: Direction): void;
  /** A change of a beam as the controller sees it. */
  edge?(beam: number, time_us: number, level: Level): void;
  /** All that the controller gives to the logics at one instant. */
  input?(time_us: number, mask: number, readings: Readings | undefined): void;
  /** A step of a logic that tells its steps. */
  step?(logic: number, step: HostStep): void;
  /** A visit has been judged. The verdict is used again: copy what you keep. */
  judged?(logic: number, visit: Visit, verdict: Readonly<Verdict>): void;
  /** A tally of nobody. */
  nobody?(logic: number, time_us: number, sign: Sign): void;
}

export class DoorCount {
  /** Of each beam: how often the controller saw it broken. */
  readonly breaks: number[];
  readonly drift: readonly DriftTrack[];
  readonly hourly: HourlyTrack;
  /** The longest latency of its logics, microseconds. */
  readonly latency_us: number;
  private readonly hosts: readonly DoorHost[];
  private readonly scorers: readonly DoorScorer[];
  private readonly counters: readonly DoorCounter[];
  private readonly reads: readonly boolean[];

  /**
   * @param logics of this door, in the design's order
   * @param delay_us how long after it happened a logic may learn of an edge, microseconds
   */
  constructor(
    design: Design,
    door: DesignDoor,
    logics: readonly AnyLogic[],
    delay_us: number,
    private readonly hooks: CountHooks,
  ) {
    const clock_us = clockOf(design);
    this.breaks = door.beams.map(() => 0);
    this.latency_us = Math.max(...logics.map((logic) => logic.latency_us));
    this.reads = logics.map((logic) => logic.readings === true);
    this.counters = logics.map(() => new DoorCounter());
    this.drift = logics.map(() => new DriftTrack(clock_us));
    this.hourly = new HourlyTrack(clock_us, clockHours(design.starts_at), WEEKDAYS.indexOf(design.starts_on));
    this.scorers = logics.map((logic, l) => new DoorScorer(logic.latency_us + delay_us, this.sinkOf(l)));
    this.hosts = logics.map((logic, l) => hostOf(logic, this.hostHooks(l)));
  }

  /** Whether any logic asks for readings. */
  get wantsReadings(): boolean {
    return this.reads.includes(true);
  }

  /** The next visit; visits come in order of entering. */
  visit(visit: Visit): void {
    for (const scorer of this.scorers) scorer.visit(visit);
    if (visit.cross_us === null) return;
    for (const track of this.drift) track.crossed(visit.cross_us, trueNetOf(visit));
    this.hourly.crossed(visit.cross_us, visit.direction === 'forward', visit.persons);
  }

  /** What the controller sees at an instant; before it saw `before`. Without a change it has readings. */
  input(time_us: number, mask: number, before: number, readings?: Readings): void {
    this.told(time_us, mask, before);
    this.hooks.input?.(time_us, mask, readings);
    const changed = mask !== before;
    for (let l = 0; l < this.hosts.length; l++)
      if (changed || this.reads[l] === true) this.hosts[l]!.inputMask(time_us, mask, readings);
  }

  /** The controller is up again after a restart and finds `mask`; before it went down it saw `before`. */
  restart(time_us: number, mask: number, before: number): void {
    this.told(time_us, mask, before);
    for (const host of this.hosts) host.reset(time_us, mask);
  }

  /** Timers due up to and including `until_us` run out. */
  timers(until_us: number): void {
    for (const host of this.hosts) host.finish(until_us);
  }

  /** Nothing earlier than `time_us` will come: what is complete is judged. */
  advance(time_us: number): void {
    for (const scorer of this.scorers) scorer.advance(time_us);
  }

  /** Where each logic stands now. */
  snapshots(): HostSnapshot[] {
    return this.hosts.map((host) => host.snapshot());
  }

  /** Nothing more is wanted of it. */
  abandon(): void {
    for (const host of this.hosts) host.close();
  }

  /** The clock has ended: what is left is judged. Per logic. */
  close(): DoorCounts[] {
    for (const scorer of this.scorers) scorer.close();
    this.abandon();
    return this.counters.map((counter) => counter.counts());
  }

  /** What changed since the controller last looked is counted and told. */
  private told(time_us: number, mask: number, before: number): void {
    const changed = mask ^ before;
    if (changed === 0) return;
    for (let beam = 0; beam < this.breaks.length; beam++) {
      if ((changed & (1 << beam)) === 0) continue;
      const level: Level = (mask & (1 << beam)) !== 0 ? 1 : 0;
      if (level === 1) this.breaks[beam]!++;
      this.hooks.edge?.(beam, time_us, level);
    }
  }

  private hostHooks(l: number) {
    const { hooks } = this;
    return {
      onTally: (time_us: number, direction: Direction) => {
        this.scorers[l]!.tally(time_us, direction);
        this.drift[l]!.tallied(time_us, direction === 'forward' ? 1 : -1);
        hooks.tally(l, time_us, direction);
      },
      ...(hooks.step && { trace: (step: HostStep) => hooks.step?.(l, step) }),
    };
  }

  private sinkOf(l: number) {
    const { hooks } = this;
    const counter = this.counters[l]!;
    if (!hooks.judged && !hooks.nobody) return counter;
    return {
      visit: (visit: Visit, verdict: Readonly<Verdict>) => {
        counter.visit(visit, verdict);
        hooks.judged?.(l, visit, verdict);
      },
      nobody: (time_us: number, sign: Sign) => {
        counter.nobody(time_us, sign);
        hooks.nobody?.(l, time_us, sign);
      },
    };
  }
}
