/**
 * Drives one logic for one door: gives it inputs in order of time, and the wakes it asked for in between.
 *
 * A wake is an unchanged input at the time asked for. Wakes due before an input's time come first; a wake due at that
 * very time is dropped, for the input takes its place (a logic sees each instant once, and the built-in ones and
 * tables let a timeout that is due go before the change). Each step's wish replaces the one before.
 */
import { LogicError, WAKES_IN_A_ROW, faultOf } from './host-check.js';
import { levelsOf } from './levels.js';
import type { Direction, Level, Logic } from './logic.js';

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

export class LogicHost {
  private state: unknown;
  private levels: readonly Level[];
  private time_us = Number.MIN_SAFE_INTEGER;
  private wake_us = Number.POSITIVE_INFINITY;

  /** The door begins with all beams clear. */
  constructor(
    private readonly logic: Logic,
    private readonly hooks: HostHooks,
  ) {
    this.state = logic.initial();
    this.levels = levelsOf(0, logic.beams);
  }

  /**
   * One instant: the levels of all the door's beams, in its order.
   *
   * @param time_us integer microseconds since the clock's start, not before the last input
   * @throws {LogicError} when the logic breaks its contract
   * @throws {RangeError} when time runs backwards or isn't whole, or levels are not one per beam
   */
  input(time_us: number, levels: readonly Level[]): void {
    if (!Number.isSafeInteger(time_us) || time_us < this.time_us)
      throw new RangeError(`an input at ${time_us} µs cannot follow one at ${this.time_us} µs`);
    if (levels.length !== this.logic.beams)
      throw new RangeError(`logic "${this.logic.name}" expects ${this.logic.beams} beams, got ${levels.length}`);
    if (this.wake_us < time_us) this.wakeUntil(time_us - 1);
    this.levels = levels;
    this.give(time_us, false);
  }

  /** The same with levels as a mask (bit i = beam i, set while broken): no array to make. */
  inputMask(time_us: number, mask: number): void {
    this.input(time_us, levelsOf(mask, this.logic.beams));
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
    if (mask !== 0) this.inputMask(time_us, mask);
  }

  /** Delivers the wakes due up to and including `until_us`: timers expire after the last input. */
  finish(until_us: number): void {
    this.wakeUntil(until_us);
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
    const step = logic.step(this.state, { time_us, levels });
    this.time_us = time_us;
    const fault = faultOf(step, time_us);
    if (fault !== null) this.fault(fault);
    this.state = step.state;
    this.wake_us = step.wake_us ?? Number.POSITIVE_INFINITY;
    const { tallies } = step;
    for (let i = 0; i < tallies.length; i++) this.hooks.onTally(time_us, tallies[i] as Direction);
    this.hooks.trace?.({ time_us, levels, label: logic.label(step.state), tallies, wake });
  }

  private fault(fault: string): never {
    throw new LogicError(this.logic.name, this.time_us, fault);
  }
}
