/**
 * Test vectors: calls at random instants, and what the simulation's own machine and switches say to them. Begun anew
 * several times; each time the clock wraps soon after the start and again in a silence of 80 minutes; pauses are often exactly as long as a timeout.
 */
import { Stream } from '../../engine/stream.js';
import { SECOND_US } from '../../engine/time.js';
import { microseconds } from '../../counter/steps.js';
import { afterRule } from '../../counter/table/table.js';
import { learnReadings } from '../../sensors/c99/switch-data.js';
import { NO_ECHO } from '../../sensors/ranger.js';
import { FirmwareModel, type Told } from './model.js';
import type { FirmwarePlan } from './plan.js';

const WRAP = 4_294_967_296;
/** Starts of the clock before it wraps, at most this long: while the first few people pass. */
const BEFORE_WRAP_US = 10 * SECOND_US;
/** How often it is all begun anew. Learning a background from hundreds of readings takes too long for more than once. */
const STARTS = 8;
const LONG_LEARNING = 50;
const NEVER = WRAP - 1;
const MINUTE_US = 60 * SECOND_US;
/** Within the 30 minutes from call to call that are asked for. */
const SILENCE_US = [29 * MINUTE_US, 30 * MINUTE_US, 21 * MINUTE_US];
/** After this share of the calls nothing happens for so long. */
const SILENCE_AFTER = 0.7;
/** Longest wait for a turn that is called late. */
const LATE_US = 3000;

const HEAD = '# Calls and what they give back: the test program says what each line means.\n';

/** @param calls how many at least */
export function vectorsText(plan: FirmwarePlan, calls: number, seed = 'firmware'): string {
  const longest = Math.max(0, ...plan.rangers.map(({ sensor }) => learnReadings(sensor.switching)));
  const starts = longest > LONG_LEARNING ? 1 : STARTS;
  // Each reading takes about three calls, and one ranger after another is read.
  const most = calls + (starts === 1 ? 6 * longest * plan.rangers.length : 0);
  const stream = Stream.root(seed);
  const parts = Array.from({ length: starts }, (_, i) =>
    new Vectors(plan, stream.nth(i)).lines(Math.ceil(most / starts)),
  );
  return HEAD + parts.join('');
}

class Vectors {
  private readonly model: FirmwareModel;
  private readonly text: string[] = [];
  /** What the clock says at the start. */
  private readonly start_us: number;
  private readonly timeouts_us: readonly number[];
  /** Longest pause between changes that follow each other: rangers get round to most of them. */
  private readonly quick_us: number;
  private time_us = 0;
  private drawn = 0;
  /** Where the people are: beams that somebody is in. */
  private bodies = 0;
  /** Of the turns: the next, and when it is due. */
  private turn = 0;
  private due_us = 0;

  constructor(
    private readonly plan: FirmwarePlan,
    private readonly stream: Stream,
  ) {
    this.model = new FirmwareModel(plan);
    this.start_us = WRAP - 1 - this.below(BEFORE_WRAP_US);
    this.say(`S ${this.clock()}`);
    const timeouts = plan.table.states.map((state) => microseconds(afterRule(state)?.after_ms ?? 0));
    const round_us = plan.turns.reduce((sum, { cycle_us, pause_us }) => sum + cycle_us + pause_us, 0);
    this.quick_us = Math.max(300_000, 4 * round_us);
    this.timeouts_us = [...new Set(timeouts.filter((one) => one > 0))];
  }

  lines(calls: number): string {
    let silent = false;
    while (this.text.length < calls) {
      if (!silent && this.text.length >= SILENCE_AFTER * calls) {
        silent = true;
        for (const pause_us of SILENCE_US) this.tick(this.time_us + pause_us);
      }
      this.bodies = this.moved();
      const until_us = this.time_us + this.pause();
      if (this.plan.rangers.length > 0) this.turnsUntil(until_us);
      if (this.time_us < until_us) this.time_us = until_us;
      if (this.plan.barriers !== 0) this.levels();
      else this.tick(this.time_us);
    }
    return this.text.join('');
  }

  /** Mostly one beam changes, sometimes several; sometimes nothing. */
  private moved(): number {
    const any = this.below(1 << this.plan.beams);
    const one = 1 << this.below(this.plan.beams);
    const kind = this.draw();
    return kind < 0.85 ? this.bodies ^ one : kind < 0.95 ? any : this.bodies;
  }

  private pause(): number {
    const kind = this.draw();
    const timeout_us = this.timeouts_us[this.below(this.timeouts_us.length)];
    if (kind < 0.85 || timeout_us === undefined) return 1 + this.below(this.quick_us);
    return kind < 0.95 ? timeout_us : 1 + this.below(2 * timeout_us);
  }

  private turnsUntil(until_us: number): void {
    // A pause that would take thousands of turns is made of its first ones.
    for (let n = 0; n < 40 && this.due_us < until_us; n++) {
      if (this.draw() < 0.1 && this.due_us - 1 >= this.time_us) this.begin(this.due_us - 1, 0);
      this.take(Math.max(this.time_us, this.due_us) + (this.draw() < 0.3 ? this.below(LATE_US) : 0));
    }
  }

  private begin(time_us: number, beams: number): void {
    this.time_us = time_us;
    this.say(`U ${this.clock()} ${beams}`);
  }

  private take(start_us: number): void {
    const turn = this.plan.turns[this.turn]!;
    this.begin(start_us, turn.beams);
    const readings = new Map<number, number>();
    for (const [r, { index }] of this.plan.rangers.entries()) {
      if ((turn.beams & (1 << index)) === 0) continue;
      const distance_um = this.reading(r, (this.bodies & (1 << index)) !== 0);
      readings.set(r, distance_um);
      // What is not given has no echo.
      if (distance_um !== NO_ECHO || this.draw() < 0.5) this.say(`R ${index} ${distance_um}`);
    }
    const busy_us = this.below(this.draw() < 0.1 ? 2 * turn.cycle_us + 1 : 2000);
    this.time_us += busy_us;
    const told = this.model.turn(this.time_us, readings);
    this.say(`D ${this.clock()} ${this.model.broken} ${words(told)}`);
    this.due_us = this.time_us + Math.max(0, turn.cycle_us - busy_us) + turn.pause_us;
    this.turn = (this.turn + 1) % this.plan.turns.length;
  }

  /** Somebody is nearer than the switching point, nobody is beyond it; a few readings are anything, or just at the edge. */
  private reading(ranger: number, near: boolean): number {
    const { switching, range_m } = this.plan.rangers[ranger]!.sensor;
    const kind = this.draw();
    if (kind < 0.03) return NO_ECHO;
    const far_um = Math.round(range_m * 1e6);
    if (kind < 0.06) return this.below(far_um);
    const fixed_um = Math.round((switching.nearer_than_m ?? 0) * 1e6);
    if (kind < 0.15) {
      const learnt_um = this.model.switches[ranger]!.background_um - Math.round(switching.margin_m * 1e6);
      const hysteresis_um = this.below(2) * Math.round(switching.hysteresis_m * 1e6);
      return Math.max(0, (fixed_um > 0 ? fixed_um : learnt_um) + hysteresis_um - this.below(2));
    }
    // A jamb at a third of the range, as the background to be learnt.
    const background_um = fixed_um > 0 ? fixed_um + 100_000 : Math.round(far_um / 3);
    return near ? this.below(Math.round(0.6 * background_um)) : background_um - 5000 + this.below(10_000);
  }

  private levels(): void {
    const told = this.model.levels(this.time_us, this.bodies);
    this.say(`L ${this.clock()} ${this.bodies} ${words(told)}`);
    if (this.draw() < 0.1) this.tick(this.time_us);
  }

  private tick(time_us: number): void {
    this.time_us = time_us;
    const told = this.model.tick(time_us);
    const { wake_us } = this.model;
    this.say(`T ${this.clock()} ${words(told)} ${wake_us === null ? NEVER : wake_us - time_us}`);
  }

  private clock(): number {
    return (this.start_us + this.time_us) % WRAP;
  }

  private say(line: string): void {
    this.text.push(`${line}\n`);
  }

  private draw(): number {
    return this.stream.at(this.drawn++);
  }

  /** A whole number from 0 to just below `n`. */
  private below(n: number): number {
    return Math.floor(this.draw() * n);
  }
}

function words({ forward, backward }: Told): string {
  return `${forward} ${backward}`;
}
