/**
 * What installing a design takes: holes, cable, parts, hours and watt-hours, drilled and surface-mounted side by side.
 * It follows from the design alone; nothing is simulated. Without a plan of the house there is no cable.
 */
import { type Missing, planOf } from '../scenario/plan-of.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import { pinsOf } from '../sensors/controllers/pins.js';
import { type Cable, type Cabling, type Variant, cabling } from './cables.js';
import { cabledEnds } from './ends.js';
import { type PowerLine, powerLines } from './power.js';
import { type Shares, cablesOf, doorShare, sharedShare, sum } from './share.js';
import { thousandths } from './thousandths.js';

/** One end of a sensor with its cable in both variants. */
export interface EndEffort extends Pick<Cable, 'beam' | 'end' | 'mount' | 'controller' | 'height_m'> {
  readonly drilled_m: number | null;
  readonly surface_m: number | null;
}

export interface ControllerEffort {
  readonly controller: string;
  readonly sensors: number;
  /** What sensors take, and what the controller has free, where it says so. */
  readonly digital_pins: number;
  readonly analogue_inputs: number;
  readonly free_digital_pins: number | null;
  readonly free_analogue_inputs: number | null;
  /** Whether the plan has its place. */
  readonly placed: boolean;
}

export interface Effort {
  readonly currency: string | null;
  /** Whether the house has a plan. */
  readonly planned: boolean;
  readonly missing: Missing;
  /** Controllers without a place on the plan. */
  readonly placeless: readonly string[];
  readonly doors: readonly ({ readonly door: string; readonly ends: readonly EndEffort[] } & Shares)[];
  readonly controllers: readonly ControllerEffort[];
  /** Controllers, power supplies, holes from room to room, raceway. */
  readonly shared: Shares;
  readonly total: Shares;
  /** Doors cables pass, by variant. */
  readonly passed: Readonly<Record<Variant, readonly string[]>>;
  readonly power: readonly PowerLine[];
  /** What sensors and controllers take, without what their supplies lose. */
  readonly watt_hours_a_day: number;
}

export function effortOf(design: Design): Effort {
  const { plan, missing } = planOf(design);
  const cablings = byVariant((variant) => (plan ? cabling(design, plan, variant) : null));
  const read = new Set(design.doors.map((door) => door.controller));
  const used = design.controllers.filter(({ name }) => read.has(name));
  const doors = design.doors.map((door) => ({
    door: door.name,
    ends: endsOf(design, door, cablings),
    ...byVariant((variant) => doorShare(design, door, variant, cablings[variant])),
  }));
  const shared = byVariant((variant) =>
    sharedShare(
      design,
      used.map(({ name }) => name),
      variant,
      cablings[variant],
    ),
  );
  const power = powerLines(design, used);
  return {
    currency: design.currency ?? null,
    planned: plan !== null,
    missing,
    placeless: used.filter(({ at_m }) => at_m === undefined).map(({ name }) => name),
    doors,
    controllers: used.map(({ name, digital_pins, analogue_inputs, at_m }) => {
      const kinds = design.doors
        .filter(({ controller }) => controller === name)
        .flatMap(({ beams }) => beams.map(({ sensor }) => sensorNamed(design, sensor).kind));
      const { digital, analogue } = pinsOf(kinds);
      return {
        controller: name,
        sensors: kinds.length,
        digital_pins: digital,
        analogue_inputs: analogue,
        free_digital_pins: digital_pins ?? null,
        free_analogue_inputs: analogue_inputs ?? null,
        placed: plan !== null && at_m !== undefined,
      };
    }),
    shared,
    total: byVariant((variant) => sum(doors.map((door) => door[variant]).concat(shared[variant]))),
    passed: byVariant((variant) => cablings[variant]?.doorways ?? []),
    power,
    watt_hours_a_day: thousandths(power.reduce((all, one) => all + one.watt_hours_a_day, 0)),
  };
}

function endsOf(design: Design, door: DesignDoor, cablings: Readonly<Record<Variant, Cabling | null>>): EndEffort[] {
  const lengths = byVariant((variant) => cablesOf(door, cablings[variant]));
  return cabledEnds(design, door).map(({ beam, end, mount, height_m }, i) => ({
    beam,
    end,
    mount,
    height_m,
    controller: door.controller,
    drilled_m: lengths.drilled?.[i]?.length_m ?? null,
    surface_m: lengths.surface?.[i]?.length_m ?? null,
  }));
}

function byVariant<T>(of: (variant: Variant) => T): Record<Variant, T> {
  return { drilled: of('drilled'), surface: of('surface') };
}
