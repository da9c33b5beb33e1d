/**
 * Test vectors: calls at random instants, and what the simulation's own machine and switches say to them. Begun anew
 * several times; each time the clock wraps soon after the start and again in a silence of 80 minutes; pauses are often exactly
 * as long as a timeout. Somebody walks through all beams again and again, so that every door has tallies.
 */
import { Stream } from '../../engine/stream.js';
import { MINUTE_US, SECOND_US } from '../../engine/time.js';
import { learnReadings } from '../../sensors/c99/switch-data.js';
import { NO_ECHO } from '../../sensors/ranger.js';
import { Draws } from './draws.js';
import { FirmwareModel, type Told } from './model.js';
import type { FirmwarePlan } from './plan.js';
import { VectorPeople } from './vector-people.js';
import { vectorReading } from './vector-reading.js';

const WRAP = 4_294_967_296;
/** Starts of the clock before it wraps, at most this long: while the first few people pass. */
const BEFORE_WRAP_US = 10 * SECOND_US;
/** How often it is all begun anew. Learning a background from hundreds of readings takes too long for more than once. */
const STARTS = 8;
const LONG_LEARNING = 50;
const NEVER = WRAP - 1;
/** Within the 30 minutes from call to call that are asked for. */
const SILENCE_US = [29 * MINUTE_US, 30 * MINUTE_US, 21 * MINUTE_US];
/** After this share of the calls nothing happens for so long. */
const SILENCE_AFTER = 0.7;
/** Longest wait for a turn that is called late. */
const LATE_US = 3000;
/** From each start on, in each direction; for their sake it goes on for so many times as many calls. */
const TALLIES = 2;
const MOST_TIMES = 5;

const HEAD = '# Calls and what they give back: the test program says what each line means.\n';

/** @param calls how many at least */
export function vectorsText(plan: FirmwarePlan, calls: number, seed = 'firmware'): string {
  const longest = Math.max(0, ...plan.rangers.map(({ sensor }) => learnReadings(sensor.switching)));
  const starts = longest > LONG_LEARNING ? 1 : STARTS;
  // Each reading takes about three calls, and one ranger after another is read.
  const most = calls + (starts === 1 ? 6 * longest * plan.rangers.length : 0);
  const stream = Stream.root(seed);
  const parts = Array.from({ length: starts }, (_, i) =>
    new Vectors(plan, new Draws(stream.nth(i))).lines(Math.ceil(most / starts)),
  );
  return HEAD + parts.join('');
}

class Vectors {
  private readonly model: FirmwareModel;
  private readonly text: string[] = [];
  /** What the clock says at the start. */
  private readonly start_us: number;
  private readonly people: VectorPeople;
  private time_us = 0;
  private readonly tallies = { forward: 0, backward: 0 };
  /** Of the turns: the next, and when it is due. */
  private turn = 0;
  private due_us = 0;

  constructor(
    private readonly plan: FirmwarePlan,
    private readonly draws: Draws,
  ) {
    this.model = new FirmwareModel(plan);
    this.people = new VectorPeople(plan, draws);
    this.start_us = WRAP - 1 - this.draws.below(BEFORE_WRAP_US);
    this.say(`S ${this.clock()}`);
  }

  /** @param calls how many at least; more, within reason, where slow switching has let few tallies through */
  lines(calls: number): string {
    let silent = false;
    while (this.text.length < calls || (this.fewest < TALLIES && this.text.length < MOST_TIMES * calls)) {
      if (!silent && this.text.length >= SILENCE_AFTER * calls) {
        silent = true;
        for (const pause_us of SILENCE_US) this.tick(this.time_us + pause_us);
      }
      this.people.move();
      const until_us = this.time_us + this.people.pause_us();
      if (this.plan.rangers.length > 0) this.turnsUntil(until_us);
      if (this.time_us < until_us) this.time_us = until_us;
      if (this.plan.barriers !== 0) this.levels();
      else this.tick(this.time_us);
    }
    return this.text.join('');
  }

  private turnsUntil(until_us: number): void {
    // A pause that would take thousands of turns is made of its first ones, and a last round when it is over.
    for (let n = 0; n < this.people.enough && this.due_us < until_us; n++) {
      if (this.draws.next() < 0.1 && this.due_us - 1 >= this.time_us) this.begin(this.due_us - 1, 0);
      this.take(Math.max(this.time_us, this.due_us) + (this.draws.next() < 0.3 ? this.draws.below(LATE_US) : 0));
    }
    if (this.due_us >= until_us) return;
    for (const _ of this.plan.turns) this.take(Math.max(until_us, this.due_us));
  }

  private begin(time_us: number, beams: number): void {
    this.time_us = time_us;
    this.say(`U ${this.clock()} ${beams}`);
  }

  private take(start_us: number): void {
    const turn = this.plan.turns[this.turn]!;
    this.begin(start_us, turn.beams);
    const readings = new Map<number, number>();
    for (const [r, { index, sensor }] of this.plan.rangers.entries()) {
      if ((turn.beams & (1 << index)) === 0) continue;
      const near = (this.people.where & (1 << index)) !== 0;
      const distance_um = vectorReading(sensor, this.model.switches[r]!, near, this.draws);
      readings.set(r, distance_um);
      // What is not given has no echo.
      if (distance_um !== NO_ECHO || this.draws.next() < 0.5) this.say(`R ${index} ${distance_um}`);
    }
    const busy_us = this.draws.below(this.draws.next() < 0.1 ? 2 * turn.cycle_us + 1 : 2000);
    this.time_us += busy_us;
    const told = this.told(this.model.turn(this.time_us, readings));
    this.say(`D ${this.clock()} ${this.model.broken} ${told}`);
    this.due_us = this.time_us + Math.max(0, turn.cycle_us - busy_us) + turn.pause_us;
    this.turn = (this.turn + 1) % this.plan.turns.length;
  }

  private levels(): void {
    const { where } = this.people;
    const told = this.told(this.model.levels(this.time_us, where));
    this.say(`L ${this.clock()} ${where} ${told}`);
    if (this.draws.next() < 0.1) this.tick(this.time_us);
  }

  private tick(time_us: number): void {
    this.time_us = time_us;
    const told = this.told(this.model.tick(time_us));
    const { wake_us } = this.model;
    this.say(`T ${this.clock()} ${told} ${wake_us === null ? NEVER : wake_us - time_us}`);
  }

  private told({ forward, backward }: Told): string {
    this.tallies.forward += forward;
    this.tallies.backward += backward;
    return `${forward} ${backward}`;
  }

  private get fewest(): number {
    return Math.min(this.tallies.forward, this.tallies.backward);
  }

  private clock(): number {
    return (this.start_us + this.time_us) % WRAP;
  }

  private say(line: string): void {
    this.text.push(`${line}\n`);
  }
}
