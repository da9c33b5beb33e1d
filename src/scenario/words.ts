/** Units, ranges and lists as people say them. Part of explain.ts. */
import { printable, short } from '../engine/printable.js';

const UNITS: Readonly<Record<string, string>> = {
  m: 'metres',
  cm: 'centimetres',
  mm: 'millimetres',
  ms: 'milliseconds',
  s: 'seconds',
  min: 'minutes',
  h: 'hours',
  y: 'years',
  deg: 'degrees',
  'm/s': 'metres per second',
  'km/h': 'kilometres per hour',
  '1/h': 'per hour',
  '%': 'per cent',
  '°C': 'degrees Celsius',
  lx: 'lux',
  klx: 'kilolux',
  µs: 'microseconds',
  µm: 'micrometres',
  Hz: 'hertz',
  kHz: 'kilohertz',
  hPa: 'hectopascals',
  kPa: 'kilopascals',
  mV: 'millivolts',
  V: 'volts',
  dB: 'decibels',
  Bd: 'baud',
};
/** Units that count things: said behind a range, never as "a number of". */
const COUNTS: ReadonlySet<string> = new Set(['persons', 'runs', 'readings', 'pins', 'inputs', 'bits', 'characters']);

/** `m` → `metres`; undefined for what is counted, a share, or no unit at all. */
export function unitWords(unit: string | undefined): string | undefined {
  return unit === undefined ? undefined : UNITS[unit];
}

/** `0.4 to 10 metres`, `at least 1`. */
export function range(r: { min?: number | undefined; max?: number | undefined; unit?: string | undefined }): string {
  const unit = unitWords(r.unit) ?? (r.unit !== undefined && COUNTS.has(r.unit) ? r.unit : '');
  const tail = unit === '' ? '' : ` ${unit}`;
  if (r.min !== undefined && r.max !== undefined) return `${short(r.min)} to ${short(r.max)}${tail}`;
  if (r.min !== undefined) return `at least ${short(r.min)}${tail}`;
  return r.max === undefined ? 'another number' : `at most ${short(r.max)}${tail}`;
}

/** A type's name with its article: `a number of metres`, `true or false`. */
export function typeWords(expected: string, unit: string | undefined): string {
  const words = unitWords(unit);
  return expected
    .split(' or ')
    .map((type) => {
      if (type === 'boolean') return 'true or false';
      if (type === 'text') return 'text';
      if (type.startsWith('"')) return type;
      if (type === 'map') return 'a map of keys';
      if (type === 'number' && unit === 'share') return 'a share from 0 to 1';
      if (!type.includes('number') || words === undefined) return `a ${type}`;
      return words.startsWith('per ') ? `a ${type} ${words}` : `a ${type} of ${words}`;
    })
    .join(' or ');
}

/** Words in a row, at most eight of them. */
export function list(words: readonly string[], last = 'and'): string {
  const shown = words.slice(0, 8).map((word) => printable(word));
  if (words.length > 8) return `${shown.join(', ')} and ${words.length - 8} more`;
  return shown.length > 1 ? `${shown.slice(0, -1).join(', ')} ${last} ${shown.at(-1)}` : (shown[0] ?? 'nothing');
}

/** `one of a, b or c`. */
export function choice(words: readonly string[]): string {
  return words.length > 2 ? `one of ${list(words, 'or')}` : list(words, 'or');
}

/** A literal as printable.ts gives it, as people say it. */
export function found(what: string): string {
  const words: Readonly<Record<string, string>> = {
    list: 'a list',
    map: 'a map of keys',
    null: 'nothing',
    NaN: 'no number (.nan)',
  };
  return what.startsWith('"') ? `the text ${what}` : (words[what] ?? what);
}
