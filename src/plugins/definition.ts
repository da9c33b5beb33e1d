/** What a module exports, checked before anything is asked of it. */
import type { LogicDefinition } from '../counter/define-logic.js';
import { WAKE_LIMIT_US } from '../counter/host-check.js';
import { MAX_BEAMS } from '../counter/levels.js';
import { nearest } from '../engine/nearest.js';
import { literal, printable, quote } from '../engine/printable.js';

export type Definition = LogicDefinition<unknown>;

/** All that a definition may say; its name is its file's. */
export const KEYS = ['name', 'beams', 'latency_us', 'readings', 'defeated_by', 'initial', 'step', 'label'] as const;
const SEE = 'a module ends in `export default defineLogic({ beams, initial, step })`';

/** @returns the definition, or what is wrong with the module's exports */
export function definitionIn(
  exported: Readonly<Record<string, unknown>>,
): Definition | { fault: string; hint: string } {
  const { default: whole, logic } = exported;
  if (whole !== undefined && logic !== undefined && whole !== logic)
    return { fault: 'it exports a default and a `logic`, and they differ', hint: 'keep one of them' };
  const found = whole ?? logic;
  if (found === undefined) {
    const names = Object.keys(exported).map((name) => printable(name));
    const others = names.length === 0 ? 'nothing' : names.slice(0, 5).join(', ');
    return { fault: `expected a logic as its default export or as \`logic\`, found ${others}`, hint: SEE };
  }
  if (typeof found !== 'object' || found === null)
    return {
      fault: `expected a logic, found ${typeof found === 'function' ? 'a function' : literal(found)}`,
      hint: SEE,
    };
  const faults = faultsOf(found as Readonly<Record<string, unknown>>);
  return faults.length > 0 ? { fault: faults.join('; '), hint: SEE } : (found as Definition);
}

function faultsOf(found: Readonly<Record<string, unknown>>): string[] {
  const { beams, latency_us, readings, defeated_by, initial, step, label } = found;
  const whole = (value: unknown, min: number, max: number): boolean =>
    Number.isSafeInteger(value) && (value as number) >= min && (value as number) <= max;
  return [
    ...typos(found),
    ...(whole(beams, 1, MAX_BEAMS) ? [] : [`beams: expected a whole number, 1 to ${MAX_BEAMS}, found ${shown(beams)}`]),
    ...(latency_us === undefined || whole(latency_us, 0, WAKE_LIMIT_US - 1)
      ? []
      : [`latency_us: expected whole microseconds, 0 to below 2^31, found ${shown(latency_us)}`]),
    ...(readings === undefined || typeof readings === 'boolean'
      ? []
      : [`readings: expected true or false, found ${shown(readings)}`]),
    ...(defeated_by === undefined || typeof defeated_by === 'string'
      ? []
      : [`defeated_by: expected a sentence, found ${shown(defeated_by)}`]),
    ...Object.entries({ initial, step, label }).flatMap(([key, value]) =>
      typeof value === 'function' || (key === 'label' && value === undefined)
        ? []
        : [`${key}: expected a function, found ${shown(value)}`],
    ),
  ];
}

/** A key that is nearly one of ours would be left unheard. */
function typos(found: object): string[] {
  return Object.keys(found).flatMap((key) => {
    const meant = KEYS.some((known) => known === key) ? undefined : nearest(key, KEYS);
    return meant === undefined ? [] : [`unknown key ${quote(key)}: did you mean ${meant}?`];
  });
}

function shown(value: unknown): string {
  return value === undefined ? 'nothing' : typeof value === 'function' ? 'a function' : literal(value);
}
