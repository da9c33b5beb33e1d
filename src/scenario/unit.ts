/** Numbers written in another unit than the key's: `90` or `90 cm` where metres are wanted. */
import type { ShapeProblem } from './issue.js';
import { short } from '../engine/printable.js';

/** Per unit of a key: other units people write, as factors to the key's. The first that fits a bare number is suspected. */
const OTHERS: Readonly<Record<string, readonly (readonly [string, number])[]>> = {
  m: [
    ['cm', 0.01],
    ['mm', 0.001],
    ['dm', 0.1],
    ['in', 0.0254],
    ['ft', 0.3048],
    ['m', 1],
  ],
  ms: [
    ['s', 1000],
    ['us', 0.001],
    ['µs', 0.001],
    ['min', 60_000],
    ['ms', 1],
  ],
  h: [
    ['min', 1 / 60],
    ['s', 1 / 3600],
    ['d', 24],
    ['h', 1],
  ],
  min: [
    ['s', 1 / 60],
    ['h', 60],
    ['min', 1],
  ],
  'm/s': [
    ['km/h', 1 / 3.6],
    ['m/s', 1],
  ],
  share: [['%', 0.01]],
  deg: [
    ['rad', 57.29577951308232],
    ['°', 1],
    ['deg', 1],
  ],
  '1/h': [
    ['1/min', 60],
    ['/h', 1],
    ['1/h', 1],
  ],
  y: [
    ['years', 1],
    ['y', 1],
  ],
  '°C': [
    ['°C', 1],
    ['C', 1],
  ],
  klx: [
    ['lx', 0.001],
    ['klx', 1],
  ],
  µs: [
    ['ms', 1000],
    ['us', 1],
    ['µs', 1],
  ],
  kHz: [
    ['Hz', 0.001],
    ['kHz', 1],
    ['MHz', 1000],
  ],
  kPa: [
    ['hPa', 0.1],
    ['mbar', 0.1],
    ['Pa', 0.001],
    ['kPa', 1],
  ],
  µm: [
    ['mm', 1000],
    ['um', 1],
    ['µm', 1],
  ],
  V: [
    ['mV', 0.001],
    ['V', 1],
  ],
  Bd: [
    ['kBd', 1000],
    ['baud', 1],
    ['Bd', 1],
  ],
  dB: [['dB', 1]],
  '%': [['%', 1]],
};
/** Only these are suspected behind a bare number; nobody writes a beam's height in feet without saying so. */
const SUSPECTS: Readonly<Record<string, readonly string[]>> = {
  m: ['cm', 'mm'],
  ms: ['s'],
  share: ['%'],
  'm/s': ['km/h'],
  h: ['min'],
  klx: ['lx'],
  kHz: ['Hz'],
  kPa: ['hPa'],
  V: ['mV'],
};

interface Range {
  readonly min?: number | undefined;
  readonly max?: number | undefined;
}
const within = (x: number, { min, max }: Range) => (min === undefined || x >= min) && (max === undefined || x <= max);

/** A bare number out of the key's range that another unit would put inside. */
export function suspectNumber(found: number, unit: string | undefined, range: Range): ShapeProblem | undefined {
  if (unit === undefined || found === 0) return undefined;
  // Carpenters write 900 for a door in millimetres, and nobody writes 900 for nine metres.
  const suspects = SUSPECTS[unit] ?? [];
  for (const other of found >= 500 ? suspects.toReversed() : suspects) {
    const factor = factorOf(unit, other);
    // A smaller unit is suspected behind a number too large, a larger one behind a number too small.
    const plausible = factor < 1 ? range.max !== undefined && found > range.max : found < (range.min ?? 0);
    const converted = found * factor;
    if (plausible && within(converted, range))
      return { code: 'unit_suspected', found, unit, suggestion: short(converted), looks_like: other, ...range };
  }
  return undefined;
}

/** A text that is a number with a unit behind it (`90 cm`, `0,9 m`, `62 %`). */
export function suspectText(text: string, unit: string | undefined): ShapeProblem | undefined {
  const match = /^\s*([+-]?\d{1,12}(?:[.,]\d{1,12})?)\s*([a-zA-Zµ°%/][a-zA-Z/]{0,6})\.?\s*$/.exec(text);
  if (unit === undefined || !match) return undefined;
  const [, digits = '', written = ''] = match;
  const found = Number(digits.replace(',', '.'));
  const factor = (OTHERS[unit] ?? []).find(([other]) => other === written || other === written.toLowerCase())?.[1];
  // The one unit that is more than a factor away.
  const converted = unit === '°C' && /^°?F$/.test(written) ? (found - 32) / 1.8 : factor && found * factor;
  if (converted === undefined) return undefined;
  return { code: 'unit_suspected', found, unit, suggestion: short(converted), written: text, looks_like: written };
}

function factorOf(unit: string, other: string): number {
  return (OTHERS[unit] ?? []).find(([name]) => name === other)?.[1] ?? 1;
}
