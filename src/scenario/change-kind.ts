/**
 * What an assignment brings along, so that a changed design is whole again: a sensor of another kind gets that kind's keys,
 * beams the keys of their sensors' kinds, ledgers and logics set by bare names their defaults.
 */
import { type SensorKind, SENSOR_KINDS, sensorSchema } from '../sensors/schema.js';
import type { KeyPath } from './issue.js';
import { child, isPlainObject } from './key-path.js';
import { replaceAt } from './path.js';
import { aimed, resolveLedgers, resolveLogics } from './resolve.js';
import { type Design, scenarioSchema } from './schema.js';

/**
 * The sensor after its `kind` was set: keys that hold the old kind's default go, the new kind's defaults come. Keys that
 * were chosen stay, and are complained of where the new kind has none. Undefined where there is no change of kinds.
 */
export function sensorOfKind(old: unknown, kind: unknown): unknown {
  const before = child(old, 'kind');
  if (!isPlainObject(old) || !isKind(before) || !isKind(kind) || before === kind) return undefined;
  const defaults: Readonly<Record<string, unknown>> = sensorSchema.parse({ kind: before });
  const chosen = Object.entries(old).filter(([key, value]) => key !== 'kind' && !same(value, defaults[key]));
  return { ...sensorSchema.parse({ kind }), ...Object.fromEntries(chosen) };
}

/** The sensors with their defaults, so that later sets find every key; what can't be read is left for the check of the shape. */
export function withWholeSensors(changed: unknown, at: KeyPath): unknown {
  const sensors = child(changed, 'sensors');
  if (!isPlainObject(sensors)) return changed;
  const names = at.length > 1 ? [String(at[1])] : Object.keys(sensors);
  return names.reduce<unknown>((design, name) => {
    const { data } = sensorSchema.safeParse(child(sensors, name));
    return data === undefined ? design : replaceAt(design, ['sensors', name], data);
  }, changed);
}

/** Every beam with the keys of its kind; what can't be read is left for the check of the shape. */
export function withBeamsAimed(changed: unknown): unknown {
  const doors = child(changed, 'doors');
  if (!Array.isArray(doors)) return changed;
  const sensors = child(changed, 'sensors');
  const known = (isPlainObject(sensors) ? sensors : {}) as Design['sensors'];
  return doors.reduce<unknown>((design, door, d) => {
    const beams = child(door, 'beams');
    if (!Array.isArray(beams)) return design;
    const whole = beams.map((beam: unknown) =>
      typeof child(beam, 'sensor') === 'string' ? aimed(beam as Design['doors'][number]['beams'][number], known) : beam,
    );
    return replaceAt(design, ['doors', d, 'beams'], whole);
  }, changed);
}

/** Ledgers that were set by their bare names become whole; what can't be read is left for the check of the shape. */
export function withLedgersNamed(changed: unknown): unknown {
  const { data } = scenarioSchema.shape.ledgers.safeParse(child(changed, 'ledgers') ?? []);
  return data === undefined ? changed : replaceAt(changed, ['ledgers'], resolveLedgers(data));
}

/** The same of logics; code is none that can be set. */
export function withLogicsNamed(changed: unknown): unknown {
  const { data } = scenarioSchema.shape.logics.safeParse(child(changed, 'logics'));
  return data === undefined ? changed : replaceAt(changed, ['logics'], resolveLogics(data, new Map()));
}

function isKind(value: unknown): value is SensorKind {
  return (SENSOR_KINDS as readonly unknown[]).includes(value);
}

/** Both come from one schema: keys are in one order. */
function same(value: unknown, preset: unknown): boolean {
  return JSON.stringify(value) === JSON.stringify(preset);
}
