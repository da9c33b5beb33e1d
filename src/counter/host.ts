/**
 * Drives one logic for one door: gives it inputs in order of time, and the wakes it asked for in between.
 *
 * A wake is an unchanged input at the time asked for. Wakes due before an input's time come first; a wake due at that
 * very time is dropped, for the input takes its place (a logic sees each instant once, and the built-in ones and
 * tables let a timeout that is due go before the change). Each step's wish replaces the one before.
 */
import { LogicError, TallyMeter, WAKES_IN_A_ROW, faultOf } from './host-check.js';
import { levelsOf } from './levels.js';
import type { Direction, Level, Logic, LogicAbout, Readings } from './logic.js';

export interface HostStep {
  readonly time_us: number;
  readonly levels: readonly Level[];
  /** Label of the logic's state after the step. */
  readonly label: string;
  readonly tallies: readonly Direction[];
  /** True for a wake, false for an input from the beams. */
  readonly wake: boolean;
}

export interface HostHooks {
  onTally(time_us: number, direction: Direction): void;
  /** Called after each step, for traces; labels are made only if it is there. */
  readonly trace?: ((step: HostStep) => void) | undefined;
}

/** Drives a logic for one door, whatever stands behind it. */
export interface DoorHost {
  /** One instant: levels as a mask (bit i = beam i, set while broken), and readings if the logic asks for them. */
  inputMask(time_us: number, mask: number, readings?: Readings): void;
  /** The logic starts anew, as after a restart of its controller. */
  reset(time_us: number, mask: number): void;
  /** All is said up to and including `until_us`: wakes due by then are delivered, and every tally has been told. */
  finish(until_us: number): void;
  /** Where the logic stands, to go on from with {@link hostOf} any number of times; all that was put in is taken in first. */
  snapshot(): HostSnapshot;
  /** Nothing more will come: what the host holds outside of itself is given back. Its snapshots stay good. */
  close(): void;
}

/** Opaque: only the logic that gave it can read it. */
export interface HostSnapshot {
  /** Label of the logic's state. */
  readonly label: string;
  /** Whether that is the state it starts in. */
  readonly resting: boolean;
}

/** A logic that keeps its state to itself, such as a program that is run beside. */
export interface OutsideLogic extends LogicAbout {
  /** @param from where to go on from, as a host of this logic gave it; from the start if left out */
  host(hooks: HostHooks, from?: HostSnapshot): DoorHost;
}

export type AnyLogic = Logic | OutsideLogic;

/** A host for one door. @param from where to go on from, as a host of the same logic gave it; from the start if left out */
export function hostOf(logic: AnyLogic, hooks: HostHooks, from?: HostSnapshot): DoorHost {
  return 'host' in logic ? logic.host(hooks, from) : new LogicHost(logic, hooks, from as LogicSnapshot | undefined);
}

interface LogicSnapshot extends HostSnapshot {
  readonly state: unknown;
  readonly levels: readonly Level[];
  readonly readings: Readings | undefined;
  readonly time_us: number;
  readonly wake_us: number;
}

export class LogicHost implements DoorHost {
  private state: unknown;
  private levels: readonly Level[];
  private readings: Readings | undefined;
  private time_us = Number.MIN_SAFE_INTEGER;
  private wake_us = Number.POSITIVE_INFINITY;
  private readonly meter = new TallyMeter();

  /** The door begins with all beams clear. @param from a snapshot of this logic to go on from */
  constructor(
    private readonly logic: Logic,
    private readonly hooks: HostHooks,
    from?: LogicSnapshot,
  ) {
    this.state = from ? from.state : logic.initial();
    this.levels = from?.levels ?? levelsOf(0, logic.beams);
    this.readings = from ? from.readings : unread(logic);
    if (!from) return;
    this.time_us = from.time_us;
    this.wake_us = from.wake_us;
  }

  snapshot(): LogicSnapshot {
    const { logic, state, levels, readings, time_us, wake_us } = this;
    const label = logic.label(state);
    return { label, resting: label === logic.label(logic.initial()), state, levels, readings, time_us, wake_us };
  }

  /**
   * One instant: the levels of all the door's beams, in its order.
   *
   * @param time_us integer microseconds since the clock's start, not before the last input
   * @throws {LogicError} when the logic breaks its contract
   * @throws {RangeError} when time runs backwards or isn't whole, or levels are not one per beam
   */
  input(time_us: number, levels: readonly Level[], readings?: Readings): void {
    if (!Number.isSafeInteger(time_us) || time_us < this.time_us)
      throw new RangeError(`an input at ${time_us} µs cannot follow one at ${this.time_us} µs`);
    if (levels.length !== this.logic.beams)
      throw new RangeError(`logic "${this.logic.name}" expects ${this.logic.beams} beams, got ${levels.length}`);
    if (this.wake_us < time_us) this.wakeUntil(time_us - 1);
    this.meter.input();
    this.levels = levels;
    if (readings !== undefined && this.logic.readings === true) this.readings = readings;
    this.give(time_us, false);
  }

  /** The same with levels as a mask (bit i = beam i, set while broken): no array to make. */
  inputMask(time_us: number, mask: number, readings?: Readings): void {
    this.input(time_us, levelsOf(mask, this.logic.beams), readings);
  }

  /**
   * The logic starts anew, as after a restart of its controller: what it knew and what it waited for is gone. If a beam is
   * broken it is told so at once, for that is the first it sees.
   *
   * @param time_us integer microseconds, not before the last input
   * @throws {RangeError} when time runs backwards or isn't whole
   */
  reset(time_us: number, mask: number): void {
    this.state = this.logic.initial();
    this.wake_us = Number.POSITIVE_INFINITY;
    this.levels = levelsOf(0, this.logic.beams);
    this.readings = unread(this.logic);
    if (mask !== 0) this.inputMask(time_us, mask);
  }

  /** Delivers the wakes due up to and including `until_us`: timers expire after the last input. */
  finish(until_us: number): void {
    this.wakeUntil(until_us);
  }

  close(): void {
    // A logic of ours holds nothing.
  }

  private wakeUntil(until_us: number): void {
    let wakes = 0;
    while (this.wake_us <= until_us) {
      if (++wakes > WAKES_IN_A_ROW) this.fault('it keeps asking to be woken and never comes to rest');
      this.give(this.wake_us, true);
    }
  }

  private give(time_us: number, wake: boolean): void {
    const { logic, levels } = this;
    const { readings } = this;
    const step = logic.step(this.state, readings === undefined ? { time_us, levels } : { time_us, levels, readings });
    this.time_us = time_us;
    const fault = faultOf(step, time_us);
    if (fault !== null) this.fault(fault);
    this.state = step.state;
    this.wake_us = step.wake_us ?? Number.POSITIVE_INFINITY;
    const { tallies } = step;
    if (tallies.length > 0) {
      const flood = this.meter.tallies(tallies.length);
      if (flood !== null) this.fault(flood);
    }
    for (let i = 0; i < tallies.length; i++) this.hooks.onTally(time_us, tallies[i] as Direction);
    this.hooks.trace?.({ time_us, levels, label: logic.label(step.state), tallies, wake });
  }

  private fault(fault: string): never {
    throw new LogicError(this.logic.name, this.time_us, fault);
  }
}

/** Before the first reading; undefined for a logic that asks for none. */
function unread({ readings, beams }: LogicAbout): Readings | undefined {
  return readings === true ? levelsOf(0, beams).map(() => null) : undefined;
}
