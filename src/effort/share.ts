/** A door's part in what installing takes, what the house shares, and the sum: in one variant, drilled or surface-mounted. */
import type { Design, DesignDoor } from '../scenario/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import type { Cable, Cabling, Variant } from './cables.js';
import { cabledEnds, sortOf } from './ends.js';
import { FRAME_HOLES, WORK_MINUTES } from './figures.js';
import { type PriceLine, cents, controllerLine, merged, partLine, sensorLine } from './prices.js';
import { thousandths } from './thousandths.js';

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

/** A door's cables in the order of its ends; undefined without a plan. */
export function cablesOf(door: DesignDoor, cables: Cabling | null): readonly Cable[] | undefined {
  return cables?.cables.filter((cable) => cable.door === door.name);
}

/** @param house its cables; null without a plan */
export function doorShare(design: Design, door: DesignDoor, variant: Variant, house: Cabling | null): Share {
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
  return priced(design, { holes, cable_m, raceway_m: 0, lines }, minutes);
}

/** Controllers, power supplies, holes from room to room, raceway. @param controllers names of those that read a door */
export function sharedShare(
  design: Design,
  controllers: readonly string[],
  variant: Variant,
  house: Cabling | null,
): Share {
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
  return priced(design, { holes, cable_m: 0, raceway_m, lines }, minutes);
}

/** A share with what its parts and its work cost. */
function priced(
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

/** Holes of all sorts. */
export function holesIn({ sensors, outlets, doorways, ceilings }: Holes): number {
  return sensors + outlets + doorways + ceilings;
}

/** All shares together. */
export function sum(shares: readonly Share[]): Share {
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
