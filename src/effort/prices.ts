/** Prices in whole cents: the user's own by sensor, kind, controller or part; made-up ones where there is none. */
import type { Part } from '../scenario/effort-schema.js';
import type { Design } from '../scenario/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import { sortOf } from './ends.js';
import { PRICES } from './figures.js';
import { thousandths } from './thousandths.js';

export interface PriceLine {
  readonly part: string;
  readonly unit: 'each' | 'm';
  /** How many, or whole millimetres of it as metres. */
  readonly quantity: number;
  /** Price of one or of one metre, cents. */
  readonly price_cents: number;
  readonly cents: number;
  /** Whether the price is the built-in one, which is nobody's. */
  readonly made_up: boolean;
}

const MADE_UP: Readonly<Record<Part, number>> = {
  reflector: PRICES.value.reflector,
  controller: PRICES.value.controller,
  'power-supply': PRICES.value.power_supply,
  'cable-per-metre': PRICES.value.cable_metre,
  'raceway-per-metre': PRICES.value.raceway_metre,
  mounting: PRICES.value.mounting,
  'adhesive-mounting': PRICES.value.adhesive_mounting,
};

export function partLine(design: Design, part: Part, quantity: number): PriceLine {
  const unit = part === 'cable-per-metre' || part === 'raceway-per-metre' ? 'm' : 'each';
  return line(design, [part], part, MADE_UP[part], quantity, unit);
}

export function controllerLine(design: Design, name: string): PriceLine {
  return line(design, [name, 'controller'], name, PRICES.value.controller, 1);
}

/** @param name a sensor's, as beams give it */
export function sensorLine(design: Design, name: string, quantity: number): PriceLine {
  const sensor = sensorNamed(design, name);
  const sort = sortOf(sensor);
  const made_up = PRICES.value[sort === 'reflector' ? 'reflex' : sort];
  return line(design, [name, sensor.kind], name, made_up, quantity);
}

function line(
  design: Design,
  names: readonly string[],
  part: string,
  made_up: number,
  quantity: number,
  unit: PriceLine['unit'] = 'each',
): PriceLine {
  const priceOf = (name: string) => design.prices?.find((one) => one.part === name)?.price;
  const own = names.map(priceOf).find((price) => price !== undefined);
  const price_cents = cents(own ?? made_up);
  return { part, unit, quantity, price_cents, cents: times(price_cents, quantity), made_up: own === undefined };
}

/** An amount in whole cents. */
export function cents(amount: number): number {
  // 1.005 is a little less in binary: what is meant is decided a thousandth of a cent off.
  return Math.round(amount * 100 + 1e-3);
}

/** Cents for so many; metres as whole millimetres, rounded once. */
function times(price_cents: number, quantity: number): number {
  return Math.round((price_cents * Math.round(quantity * 1000)) / 1000);
}

/** Lines of one part as one, in order of first mention; amounts are summed as they were rounded. */
export function merged(lines: readonly PriceLine[]): PriceLine[] {
  const byPart = new Map<string, PriceLine>();
  for (const one of lines) {
    // A controller may be called as a sensor is.
    const key = `${one.price_cents} ${one.part}`;
    const before = byPart.get(key);
    if (!before) byPart.set(key, one);
    else {
      const quantity = thousandths(before.quantity + one.quantity);
      byPart.set(key, { ...before, quantity, cents: before.cents + one.cents });
    }
  }
  return [...byPart.values()];
}
