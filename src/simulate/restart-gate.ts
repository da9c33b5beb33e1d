/**
 * Between a door's inputs and its logics: closed while the controller restarts.
 *
 * What changes meanwhile is not seen; when the controller is up again it finds the levels as they are. Rangers go on:
 * their switching keeps what it has learnt, and only the edges in between are lost.
 */
import type { Readings } from '../counter/logic.js';
import { forkOf } from '../engine/fork.js';
import type { Stream } from '../engine/stream.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { Restarts } from '../sensors/controllers/restarts.js';
import type { DoorCount } from './door-count.js';
import { clockOf, controllerOf } from './plan.js';

export interface GateHooks {
  levels(time_us: number, mask: number, before: number, readings: Readings | undefined): void;
  /** Goes down at `time_us`: what was due by then may still happen. */
  down(time_us: number): void;
  /** Is up again and sees `mask`; before it went down it saw `before`. */
  up(time_us: number, mask: number, before: number): void;
}

export class RestartGate {
  down = false;
  /** Levels as they are, and as the controller last saw them. */
  private mask = 0;
  private seen = 0;

  constructor(
    private readonly restarts: Restarts,
    public hooks: GateHooks,
  ) {}

  /** The same gate at this moment, to go on another way. */
  fork(hooks: GateHooks): RestartGate {
    const copy = forkOf(this, [RestartGate, Restarts]) as RestartGate;
    copy.hooks = hooks;
    return copy;
  }

  /** While it is down: what it will find when it is up again at that very instant. */
  finds(time_us: number, mask: number): void {
    this.until(time_us - 1);
    if (this.down && this.restarts.end_us === time_us) this.mask = mask;
  }

  /** Levels change, or readings come. A change at the very start of a restart is not seen, one at its end is. */
  input(time_us: number, mask: number, readings?: Readings): void {
    this.until(time_us);
    this.mask = mask;
    if (this.down) return;
    this.hooks.levels(time_us, mask, this.seen, readings);
    this.seen = mask;
  }

  /** No change before or at `time_us` is still to come: restarts that begin or end by then do so. */
  until(time_us: number): void {
    const { restarts } = this;
    for (;;) {
      if (!this.down) {
        if (restarts.start_us > time_us) return;
        this.hooks.down(restarts.start_us - 1);
        this.down = true;
      }
      if (restarts.end_us > time_us) return;
      this.down = false;
      this.hooks.up(restarts.end_us, this.mask, this.seen);
      this.seen = this.mask;
      restarts.next();
    }
  }
}

/**
 * The gate before a door's count; null for a controller that never restarts.
 *
 * @param replicate the replicate's stream: a controller's restarts have their own below it
 */
export function gateOf(design: Design, door: DesignDoor, replicate: Stream, count: DoorCount): RestartGate | null {
  const controller = controllerOf(design, door);
  if (controller.restarts_per_week <= 0) return null;
  const chance = replicate.child('controller', door.controller).child('restarts');
  return new RestartGate(new Restarts(controller, chance, clockOf(design)), {
    levels: (time_us, mask, before, readings) => count.input(time_us, mask, before, readings),
    down: (time_us) => count.timers(time_us),
    up: (time_us, mask, before) => count.restart(time_us, mask, before),
  });
}
