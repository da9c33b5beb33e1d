/**
 * What installing a design takes: holes, cable, parts, hours and watt-hours, drilled and surface-mounted side by side.
 * It follows from the design alone; nothing is simulated. Without a plan of the house there is no cable.
 */
import { type Missing, planOf } from '../scenario/plan-of.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import { pinsOf } from '../sensors/controllers/pins.js';
import { type Cable, type Cabling, type Variant, cabling } from './cables.js';
import { cabledEnds, sortOf } from './ends.js';
import { FRAME_HOLES, POWER, WORK_MINUTES } from './figures.js';
import { type PriceLine, cents, controllerLine, merged, partLine, sensorLine } from './prices.js';

export interface Holes {
  /** In frames, for sensors. */
  readonly sensors: number;
  /** In frames, where cables leave a jamb or lintel. */
  readonly outlets: number;
  /** Over doors, where cables get from room to room; 0 as long as ways are not known. */
  readonly doorways: number;
  readonly ceilings: number;
}

/** One door's part in a variant, what the house shares, or the whole. */
export interface Share {
  readonly holes: Holes;
  /** All cables, one after another; null where one of them is not known: then parts and minutes are without them. */
  readonly cable_m: number | null;
  /** Null as `cable_m`. */
  readonly raceway_m: number | null;
  readonly lines: readonly PriceLine[];
  readonly parts_cents: number;
  readonly minutes: number;
  /** Null without an hour's rate. */
  readonly work_cents: number | null;
}

export type Shares = Readonly<Record<Variant, Share>>;

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

export interface PowerLine {
  readonly of: string;
  readonly count: number;
  readonly power_mw: number;
  readonly watt_hours_a_day: number;
  readonly assumed: boolean;
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

/** Every end of every sensor and the cable to its controller. Lengths are null without a plan or a way. */
export function cableLength_m(design: Design): readonly (EndEffort & { readonly door: string })[] {
  return effortOf(design).doors.flatMap(({ door, ends }) => ends.map((end) => ({ door, ...end })));
}

function byVariant<T>(of: (variant: Variant) => T): Record<Variant, T> {
  return { drilled: of('drilled'), surface: of('surface') };
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

function cablesOf(door: DesignDoor, cables: Cabling | null): readonly Cable[] | undefined {
  return cables?.cables.filter((cable) => cable.door === door.name);
}

function doorShare(design: Design, door: DesignDoor, variant: Variant, house: Cabling | null): Share {
  const ends = cabledEnds(design, door);
  const sorts = door.beams.map(({ sensor }) => sortOf(sensorNamed(design, sensor)));
  const drilled = variant === 'drilled';
  const holes: Holes = {
    sensors: drilled ? sorts.reduce((all, sort) => all + FRAME_HOLES.value[sort], 0) : 0,
    outlets: drilled ? FRAME_HOLES.value.outlet * new Set(ends.map(({ mount }) => mount)).size : 0,
    doorways: 0,
    ceilings: 0,
  };
  const lengths = cablesOf(door, house)?.map(({ length_m }) => length_m) ?? [null];
  const cable_m = lengths.includes(null)
    ? null
    : thousandths(lengths.reduce<number>((all, one) => all + (one ?? 0), 0));
  const reflectors = sorts.filter((sort) => sort === 'reflector').length;
  const lines = merged([
    ...door.beams.map(({ sensor }) => sensorLine(design, sensor, 1)),
    ...(reflectors > 0 ? [partLine(design, 'reflector', reflectors)] : []),
    partLine(design, drilled ? 'mounting' : 'adhesive-mounting', ends.length),
    ...(cable_m === null ? [] : [partLine(design, 'cable-per-metre', cable_m)]),
  ]);
  const minutes = minutesOf(design, { holes, cable_m, raceway_m: null, sensors: door.beams.length, controllers: 0 });
  return share(design, { holes, cable_m, raceway_m: 0, lines }, minutes);
}

function sharedShare(design: Design, controllers: readonly string[], variant: Variant, house: Cabling | null): Share {
  const drilled = variant === 'drilled';
  const holes: Holes = {
    sensors: 0,
    outlets: 0,
    doorways: drilled ? (house?.doorways.length ?? 0) : 0,
    ceilings: drilled ? (house?.ceilings ?? 0) : 0,
  };
  const known = house !== null && house.cables.every(({ length_m }) => length_m !== null);
  const raceway_m = drilled ? 0 : known ? house.trunk_m : null;
  const lines = [
    ...controllers.map((name) => controllerLine(design, name)),
    partLine(design, 'power-supply', controllers.length),
    ...(raceway_m === null || raceway_m === 0 ? [] : [partLine(design, 'raceway-per-metre', raceway_m)]),
  ];
  const minutes = minutesOf(design, { holes, cable_m: null, raceway_m, sensors: 0, controllers: controllers.length });
  return share(design, { holes, cable_m: 0, raceway_m, lines }, minutes);
}

function share(
  design: Design,
  parts: Pick<Share, 'holes' | 'cable_m' | 'raceway_m' | 'lines'>,
  minutes: number,
): Share {
  const rate = design.work?.hour_rate;
  return {
    ...parts,
    parts_cents: parts.lines.reduce((all, line) => all + line.cents, 0),
    minutes,
    work_cents: rate === undefined ? null : Math.round((cents(rate) * minutes) / 60),
  };
}

/** Minutes of work, to a thousandth. */
function minutesOf(
  { work = {} }: Design,
  of: Pick<Share, 'holes' | 'cable_m' | 'raceway_m'> & { readonly sensors: number; readonly controllers: number },
): number {
  const assumed = WORK_MINUTES.value;
  return thousandths(
    holesIn(of.holes) * (work.minutes_per_hole ?? assumed.hole) +
      (of.cable_m ?? 0) * (work.minutes_per_metre ?? assumed.metre) +
      (of.raceway_m ?? 0) * (work.minutes_per_raceway_metre ?? assumed.raceway_metre) +
      of.sensors * (work.minutes_per_sensor ?? assumed.sensor) +
      of.controllers * (work.minutes_per_controller ?? assumed.controller),
  );
}

export function holesIn({ sensors, outlets, doorways, ceilings }: Holes): number {
  return sensors + outlets + doorways + ceilings;
}

function sum(shares: readonly Share[]): Share {
  const all = (of: (one: Share) => number): number => shares.reduce((whole, one) => whole + of(one), 0);
  const known = (of: (one: Share) => number | null): number | null =>
    shares.some((one) => of(one) === null) ? null : thousandths(all((one) => of(one) ?? 0));
  return {
    holes: {
      sensors: all(({ holes }) => holes.sensors),
      outlets: all(({ holes }) => holes.outlets),
      doorways: all(({ holes }) => holes.doorways),
      ceilings: all(({ holes }) => holes.ceilings),
    },
    cable_m: known((one) => one.cable_m),
    raceway_m: known((one) => one.raceway_m),
    lines: merged(shares.flatMap(({ lines }) => lines)),
    parts_cents: all((one) => one.parts_cents),
    minutes: thousandths(all((one) => one.minutes)),
    work_cents: known((one) => one.work_cents),
  };
}

function powerLines(
  design: Design,
  controllers: readonly { readonly name: string; readonly power_mw?: number | undefined }[],
): PowerLine[] {
  const sensors = new Map<string, number>();
  for (const { beams } of design.doors)
    for (const { sensor } of beams) sensors.set(sensor, (sensors.get(sensor) ?? 0) + 1);
  const line = (of: string, count: number, own: number | undefined, assumed: number): PowerLine => {
    const power_mw = own ?? assumed;
    return {
      of,
      count,
      power_mw,
      watt_hours_a_day: thousandths((count * power_mw * 24) / 1000),
      assumed: own === undefined,
    };
  };
  return [
    ...[...sensors].map(([name, count]) => {
      const sensor = sensorNamed(design, name);
      return line(name, count, sensor.power_mw, POWER.value[sortOf(sensor)]);
    }),
    ...controllers.map(({ name, power_mw }) => line(name, 1, power_mw, POWER.value.controller)),
  ];
}

function thousandths(x: number): number {
  return Math.round(x * 1000) / 1000;
}
