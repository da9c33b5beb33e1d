/** Who comes and goes in the test vectors: mostly one step of a walk or anything at random, at a pace that the switching sees. */
import { microseconds } from '../../counter/steps.js';
import { afterRule } from '../../counter/table/table.js';
import type { Draws } from './draws.js';
import type { FirmwarePlan } from './plan.js';

/** How often a walk begins when none is going on: half of the changes belong to one. */
const WALKS = 0.3;
/** Longest pause from change to change where nothing but light barriers looks on. */
const QUICK_US = 300_000;

export class VectorPeople {
  /** Beams that somebody is in, as bits. */
  where = 0;
  /** Turns after which the switching has seen what there is to see, but for its delay. */
  readonly enough: number;
  private walk: readonly number[] = [];
  private readonly quick_us: number;
  private readonly timeouts_us: readonly number[];

  constructor(
    private readonly plan: Pick<FirmwarePlan, 'beams' | 'rangers' | 'turns' | 'table'>,
    private readonly draws: Draws,
  ) {
    const { rangers, turns, table } = plan;
    const timeouts = table.states.map((state) => microseconds(afterRule(state)?.after_ms ?? 0));
    this.timeouts_us = [...new Set(timeouts.filter((one) => one > 0))];
    const settings = rangers.map(({ sensor }) => sensor.switching);
    const rounds = Math.max(0, ...settings.map(({ median_of, minimum_samples }) => median_of + minimum_samples + 1));
    const round_us = turns.reduce((sum, { cycle_us, pause_us }) => sum + cycle_us + pause_us, 0);
    const delay_us = Math.max(0, ...settings.map(({ off_delay_ms }) => microseconds(off_delay_ms)));
    this.enough = rounds * turns.length;
    this.quick_us = Math.max(QUICK_US, 2 * (rounds * round_us + delay_us));
  }

  /** The next step of a walk; otherwise mostly one beam changes, sometimes several, sometimes nothing. */
  move(): void {
    const { draws } = this;
    const { beams } = this.plan;
    if (this.walk.length === 0 && draws.next() < WALKS)
      this.walk = walkThrough(beams, draws.next() < 0.5, this.where !== 0);
    const [step, ...rest] = this.walk;
    this.walk = rest;
    if (step !== undefined) {
      this.where = step;
      return;
    }
    const any = draws.below(1 << beams);
    const one = 1 << draws.below(beams);
    const kind = draws.next();
    if (kind < 0.85) this.where ^= one;
    else if (kind < 0.95) this.where = any;
  }

  /** Until the next change: at times as long as a timeout, to the microsecond. */
  pause_us(): number {
    const { draws, timeouts_us, quick_us } = this;
    const kind = draws.next();
    const timeout_us = timeouts_us[draws.below(timeouts_us.length)];
    if (kind < 0.85 || timeout_us === undefined) {
      // Who walks stays long enough to be seen.
      const least_us = this.walk.length > 0 ? Math.floor(quick_us / 2) : 0;
      return 1 + least_us + draws.below(quick_us - least_us);
    }
    return kind < 0.95 ? timeout_us : 1 + draws.below(2 * timeout_us);
  }
}

/** Where somebody is on the way through all beams: in each alone, and in each two that follow; last in none. */
function walkThrough(beams: number, forward: boolean, occupied: boolean): number[] {
  const order = Array.from({ length: beams }, (_, i) => 1 << (forward ? i : beams - 1 - i));
  const steps = order.flatMap((beam, i) => [beam, beam | (order[i + 1] ?? 0)]).slice(0, -1);
  return [...(occupied ? [0] : []), ...steps, 0];
}
