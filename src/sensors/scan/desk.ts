/** One controller at its rounds: whose turn it is, and how long things have been quiet. */
import type { Stream } from '../../engine/stream.js';
import type { Round } from '../controllers/rounds.js';
import { intervalOf } from '../controllers/intervals.js';
import { per_round_us, turnLength_us } from '../controllers/turn-length.js';
import type { Slot } from './slot.js';

export class Desk {
  /** Rangers of each turn. */
  readonly turns: readonly (readonly Slot[])[];
  /** Every ranger once, with how often it is read in a round. */
  readonly readings: ReadonlyMap<Slot, number>;
  /** Place of the present turn in the round. */
  turn = 0;
  /** Start of the next turn or, while listening, end of this turn's waiting; microseconds. */
  at_us: number;
  listening = false;
  private roundStart_us = 0;
  private round_us = NaN;
  private quiet_us = 0;
  private changed = true;
  private readonly hears: boolean;

  /**
   * @param round with a turn at least @param slotOf a slot by door and beam
   * @param stream the controller's: where in its round it is when the clock starts is chance
   */
  constructor(
    private readonly round: Round,
    slotOf: (door: number, beam: number) => Slot,
    stream: Stream,
  ) {
    this.turns = round.turns.map((members) => members.map(({ door, beam }) => slotOf(door, beam)));
    const readings = new Map<Slot, number>();
    for (const slot of this.turns.flat()) readings.set(slot, (readings.get(slot) ?? 0) + 1);
    this.readings = readings;
    this.hears = [...readings.keys()].some((slot) => slot.ranger.ear !== null);
    const idle = intervalOf(round, ({ door, beam }) => busyOf(slotOf(door, beam)));
    this.at_us = Math.floor(stream.child('scan').at(0) * idle.round_us);
    this.roundStart_us = this.at_us;
  }

  get members(): readonly Slot[] {
    return this.turns[this.turn] as readonly Slot[];
  }

  /** The turn began: it listens until the slowest of its rangers has answered. */
  listen(start_us: number): void {
    if (this.turn === 0) this.roundStart_us = start_us;
    this.listening = true;
    this.at_us = start_us + this.busy_us();
  }

  /** After something was heard earlier than expected. */
  listenAgain(start_us: number): void {
    this.at_us = start_us + this.busy_us();
  }

  /** A reading that wasn't like the one before. */
  disturb(): void {
    this.changed = true;
  }

  /** The turn is over: the next one begins when its length has passed. */
  next(start_us: number): void {
    const { members, round } = this;
    this.listening = false;
    this.at_us = start_us + turnLength_us(round.controller, members.length, this.busy_us());
    this.turn++;
    if (this.turn < this.turns.length) return;
    this.turn = 0;
    this.at_us += per_round_us(round.controller);
    const round_us = this.at_us - this.roundStart_us;
    this.quiet_us = this.changed || round_us !== this.round_us ? 0 : this.quiet_us + round_us;
    this.round_us = round_us;
    this.changed = false;
  }

  /**
   * Jumps over as many rounds as are sure to be like the last one, at the start of a round.
   *
   * @param until_us turns that begin from here on are not jumped
   * @param stays_us how long a burst stays in the air @returns microseconds jumped
   */
  jump(until_us: number, stays_us: number): number {
    // Rangers that hear need all bursts in the air to be those of quiet rounds.
    if (this.quiet_us === 0 || (this.hears && this.quiet_us < stays_us)) return 0;
    const { round_us } = this;
    let rounds = Math.floor((until_us - this.at_us) / round_us);
    for (const [slot, times] of this.readings) rounds = Math.min(rounds, Math.floor(slot.quietReadings() / times));
    if (rounds < 1) return 0;
    const by_us = rounds * round_us;
    this.at_us += by_us;
    for (const [slot, times] of this.readings) slot.n += rounds * times;
    return by_us;
  }

  private busy_us(): number {
    let busy_us = 0;
    for (const slot of this.members) busy_us = Math.max(busy_us, slot.ranger.busy_us(slot.seen_m));
    return busy_us;
  }
}

function busyOf(slot: Slot): number {
  return slot.ranger.busy_us(slot.idle_m);
}
