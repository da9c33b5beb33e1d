/**
 * What the source in C has to do, call by call: the simulation's own machine, host and switches, given the same calls.
 * Times are whole microseconds since the start and never wrap.
 */
import { type HostHooks, LogicHost } from '../../counter/host.js';
import type { Logic } from '../../counter/logic.js';
import { machineOf } from '../../counter/table/machine.js';
import { micrometres } from '../../sensors/ranger.js';
import { Switch } from '../../sensors/switching/switch.js';
import type { FirmwarePlan } from './plan.js';

export interface Told {
  readonly forward: number;
  readonly backward: number;
}

export class FirmwareModel {
  /** Beams that are broken, as bits. */
  broken = 0;
  /** When the next timeout is due; null if none runs. */
  wake_us: number | null = null;
  readonly switches: readonly Switch[];
  private host: LogicHost;
  private readonly logic: Logic;
  private forward = 0;
  private backward = 0;
  private readonly hooks: HostHooks = {
    onTally: (_time, direction) => {
      if (direction === 'forward') this.forward++;
      else this.backward++;
    },
  };

  constructor(private readonly plan: FirmwarePlan) {
    this.logic = this.watched(machineOf(plan.table));
    this.host = new LogicHost(this.logic, this.hooks);
    this.switches = plan.rangers.map(({ sensor }) => new Switch(sensor.switching, micrometres(sensor.range_m)));
    // A timeout of the first state runs from the start.
    this.host.inputMask(0, 0);
  }

  /** Light barriers are given; bits of other beams are left aside. */
  levels(time_us: number, broken: number): Told {
    const { barriers } = this.plan;
    return this.step(time_us, (this.broken & ~barriers) | (broken & barriers));
  }

  /** The readings of one turn, by place among the door's rangers, at its end. */
  turn(time_us: number, readings: ReadonlyMap<number, number>): Told {
    let { broken } = this;
    for (const [ranger, distance_um] of readings) {
      const own = this.switches[ranger]!;
      own.reading(time_us, distance_um);
      const bit = 1 << this.plan.rangers[ranger]!.index;
      broken = own.level === 1 ? broken | bit : broken & ~bit;
    }
    return this.step(time_us, broken);
  }

  tick(time_us: number): Told {
    this.host.finish(time_us);
    return this.taken();
  }

  private step(time_us: number, broken: number): Told {
    this.broken = broken;
    this.host.inputMask(time_us, broken);
    return this.taken();
  }

  private taken(): Told {
    const { forward, backward } = this;
    this.forward = 0;
    this.backward = 0;
    // A host refuses a logic that counts far more people than beams change; at random instants a good table may.
    if (forward + backward > 0) this.host = new LogicHost(this.logic, this.hooks, this.host.snapshot());
    return { forward, backward };
  }

  /** The logic, with its wishes to be woken noted. */
  private watched(logic: Logic): Logic {
    return {
      ...logic,
      step: (state, input) => {
        const step = logic.step(state, input);
        this.wake_us = step.wake_us ?? null;
        return step;
      },
    };
  }
}
