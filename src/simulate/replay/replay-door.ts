/** One door of a log: edges and readings in order of time; what happened at one instant is one input. */
import { NO_ECHO } from '../../sensors/ranger.js';
import { Switch } from '../../sensors/switching/switch.js';
import type { AnyLogic } from '../../counter/host.js';
import type { Stream } from '../../engine/stream.js';
import type { Design, DesignDoor } from '../../scenario/schema.js';
import { isRanger } from '../../sensors/mounted.js';
import { type CountHooks, DoorCount } from '../door-count.js';
import { mountedBeams } from '../plan.js';
import { type RestartGate, gateOf } from '../restart-gate.js';

export class ReplayDoor {
  readonly count: DoorCount;
  /** Levels after the last event. */
  mask = 0;
  private readonly switches: readonly (Switch | null)[];
  private readonly gate: RestartGate | null;
  private readings: (number | null)[];
  /** The instant whose events are still coming; what was before it. */
  private instant_us = -Infinity;
  private before = 0;
  private read = false;
  /** Whether its levels are those the controller saw, so that a restart has been through them. */
  private readonly seen: boolean;

  /**
   * @param delay_us how long after it happened a logic may learn of an edge
   * @param restarts the replicate's stream, to restart the logics as its simulation did; null for a log of a real controller
   */
  constructor(
    design: Design,
    door: DesignDoor,
    logics: readonly AnyLogic[],
    delay_us: number,
    hooks: CountHooks,
    restarts: Stream | null,
    seen: boolean,
  ) {
    const count = new DoorCount(design, door, logics, delay_us, hooks);
    this.count = count;
    this.seen = seen;
    this.readings = door.beams.map(() => null);
    this.switches = mountedBeams(design, door).map((beam) =>
      isRanger(beam) ? new Switch(beam.sensor.switching, Math.round(beam.sensor.range_m * 1e6)) : null,
    );
    this.gate = restarts && gateOf(design, door, restarts, count);
  }

  /** @returns whether the level is another than before */
  edge(beam: number, time_us: number, level: 0 | 1): boolean {
    this.at(time_us);
    const bit = 1 << beam;
    const changed = ((this.mask & bit) !== 0) !== (level === 1);
    this.mask = level === 1 ? this.mask | bit : this.mask & ~bit;
    return changed;
  }

  /** @param distance_um whole micrometres, −1 without echo */
  reading(beam: number, time_us: number, distance_um: number): void {
    this.at(time_us);
    const switching = this.switches[beam];
    if (!switching) return;
    if (!this.read) this.readings = [...this.readings];
    this.read = true;
    this.readings[beam] = distance_um === NO_ECHO ? null : distance_um;
    switching.reading(time_us, distance_um);
    this.mask = switching.level === 1 ? this.mask | (1 << beam) : this.mask & ~(1 << beam);
  }

  /** Nothing before `until_us` is still to come. */
  advance(until_us: number): void {
    if (this.instant_us < until_us) this.flush();
    this.gate?.until(until_us - 1);
    if (this.gate?.down !== true) this.count.timers(until_us - 1);
    this.count.advance(until_us);
  }

  /** The log has ended; timers run on to `last_us`. */
  end(settle_us: number, last_us: number): void {
    this.advance(settle_us);
    this.gate?.until(last_us);
    if (this.gate?.down !== true) this.count.timers(last_us);
  }

  private at(time_us: number): void {
    if (time_us === this.instant_us) return;
    this.flush();
    this.instant_us = time_us;
    this.before = this.mask;
  }

  private flush(): void {
    const { gate, count, mask, before, instant_us, read } = this;
    if (mask === before && !read) return;
    const readings = read && count.wantsReadings ? this.readings : undefined;
    if (gate) {
      if (this.seen) gate.finds(instant_us, mask);
      gate.input(instant_us, mask, readings);
    } else if (mask !== before || readings) count.input(instant_us, mask, before, readings);
    this.before = mask;
    this.read = false;
  }
}
