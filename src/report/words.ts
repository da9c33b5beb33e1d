/** Names, numbers and estimates as a reader sees them: the one place where data become words, for page and terminal. */
import { HIDING } from '../engine/printable.js';
import type { Design } from '../scenario/schema.js';
import type { MixEntry } from '../agents/schema.js';
import type { Estimate } from '../score/metrics-schema.js';

const MINUS = '\u2212';
/** Between number and unit, so that they stay on one line. */
const NBSP = '\u00a0';

const INVISIBLE = new RegExp(`[${HIDING}]`, 'g');

/**
 * A user's own name inside our sentence: without control characters, and in a Unicode isolate, so that a name written
 * right to left does not turn the numbers around it.
 */
export function named(text: string): string {
  return `\u2068${plain(text)}\u2069`;
}

/** The same for a terminal or a file: without the marks that isolate names on a page. */
export const bare = (text: string): string => text.replace(/[\u2068\u2069]/g, '');

/** A user's own text without control characters and direction marks; for places that isolate by other means. */
export function plain(text: string): string {
  return text.replace(INVISIBLE, '\ufffd');
}

/** 1234567 → '1,234,567'. */
export function count(n: number): string {
  if (!Number.isFinite(n)) return 'not known';
  return (n < 0 ? MINUS : '') + String(Math.abs(Math.round(n))).replace(/\B(?=(\d{3})+$)/g, ',');
}

const NUMERALS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];
/** 'two'; from thirteen on '13'. For whole numbers of things. */
export const numeral = (n: number): string => NUMERALS[n] ?? count(n);

/** '1 visit', '2 visits'. */
export function plural(n: number, one: string, many = `${one}s`): string {
  return `${count(n)} ${n === 1 ? one : many}`;
}

/** A number with at most this many decimals, trailing zeros dropped: 0.80 → '0.8'. For what a user typed. */
export function decimal(x: number, most = 3): string {
  if (!Number.isFinite(x)) return 'not known';
  const text = x.toFixed(most);
  // Zeros before the point are digits like others: 80 stays 80.
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return Number(short) === 0 ? '0' : short.replace('-', MINUS);
}

/** A length in metres, always to the centimetre: '0.90 m'; to the millimetre where it needs one. */
export function metres(x: number): string {
  const centimetres = x * 100;
  const whole = Math.abs(centimetres - Math.round(centimetres)) < 1e-6;
  return `${fixed(x, whole ? 2 : 3)}${NBSP}m`;
}

/** A share as a percentage: 0.625 → '62.5 %'. For what a user typed. */
export function percent(share: number): string {
  return `${decimal(share * 100, 2)}${NBSP}%`;
}

function fixed(x: number, decimals: number): string {
  const text = x.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text.replace('-', MINUS);
}

/**
 * How many decimals an interval supports: to the first digit of its half-width, and one more when that digit is 1
 * or 2 (half-width 1.4 → 1 decimal; 5 → none; 0.03 → 2).
 */
export function decimalsFor(low: number, high: number): number {
  const half = (high - low) / 2;
  if (!(half > 0) || !Number.isFinite(half)) return 2;
  let decimals = 0;
  let scaled = half;
  // A half-width of 3 or more in the last printed place: stop.
  while (scaled < 3 && decimals < 4) {
    scaled *= 10;
    decimals += 1;
  }
  return Math.min(decimals, 4);
}

export interface EstimateWords {
  /** The value, or null when there is none. */
  readonly value: string | null;
  /** '7.9 to 10.7', or null when there is no interval. */
  readonly range: string | null;
  /** Why something is missing or to be read with care. */
  readonly note: string | null;
}

const finite = (x: number | null): x is number => x !== null && Number.isFinite(x);

/** The parts of an estimate, rounded to what its interval supports. `share` prints it as a percentage. */
export function estimateWords(e: Estimate, as: 'number' | 'share' = 'number'): EstimateWords {
  const scale = as === 'share' ? 100 : 1;
  const unit = as === 'share' ? `${NBSP}%` : '';
  if (!finite(e.value)) return { value: null, range: null, note: e.reason ?? 'this run gives no number for it' };
  const value = e.value * scale;
  if (!finite(e.low) || !finite(e.high)) {
    return { value: fixed(value, 2) + unit, range: null, note: e.reason ?? 'the run gives none' };
  }
  const [low, high] = [e.low * scale, e.high * scale];
  if (low === high) {
    const note = e.reason ?? 'the same in every replicate';
    return { value: decimal(value, 2) + unit, range: `${decimal(low, 2)} to ${decimal(high, 2)}${unit}`, note };
  }
  const decimals = decimalsFor(low, high);
  const digits = (x: number): string => {
    if (x === 0) return '0';
    const least = 1 / 10 ** decimals;
    // Something is never printed as nothing.
    return x > 0 && x < least / 2 ? `<${NBSP}${least.toFixed(decimals)}` : fixed(x, decimals);
  };
  return { value: digits(value) + unit, range: `${digits(low)} to ${digits(high)}${unit}`, note: e.reason ?? null };
}

/** '9.3 (95 % interval 7.9 to 10.7)'; without a value, 'not known (the reason)'. Never NaN. */
export function formatEstimate(e: Estimate, as: 'number' | 'share' = 'number'): string {
  const { value, range, note } = estimateWords(e, as);
  if (value === null) return `not known (${note ?? 'no reason given'})`;
  if (range === null) return `${value} (no interval: ${note ?? 'no reason given'})`;
  const alike = e.low === e.high ? `, ${note ?? ''}` : '';
  return `${value} (95${NBSP}% interval ${range}${alike})`;
}

const NAMED = `95${NBSP}% interval `;

/** A text in which only the first interval is called one, as text for reading aloud: '3.9 (95 % interval 3.2 to 4.7) … 98 (66 to 129)'. */
export function namedOnce(text: string): string {
  const first = text.indexOf(NAMED);
  if (first < 0) return text;
  const after = first + NAMED.length;
  return text.slice(0, after) + text.slice(after).replaceAll(NAMED, '');
}

const WHO: Readonly<Record<string, string>> = {
  adult: 'adults',
  child: 'children',
  'adult-with-infant': 'adults with an infant',
  'dog-small': 'small dogs',
  'dog-medium': 'medium dogs',
  'dog-large': 'large dogs',
  'dog-giant': 'giant dogs',
  cat: 'cats',
  'adult-with-suitcase': 'adults with a suitcase',
  'adult-with-laundry-basket': 'adults with a laundry basket',
  'adult-with-pram': 'adults with a pram',
  'adult-with-rollator': 'adults with a rollator',
  'wheelchair-pushed': 'wheelchairs that are pushed',
  'wheelchair-user': 'wheelchair users',
  'robot-vacuum': 'robot vacuums',
  leaf: 'the leaf',
  curtain: 'the curtain',
};
const KIND: Readonly<Record<string, string>> = {
  through: 'going through',
  abreast: 'two abreast',
  'close-behind': 'close behind one another',
  against: 'against one another',
  'turn-back': 'turning back',
  linger: 'lingering',
  reach: 'reaching through',
  'at-heel': 'with a pet at heel',
  swing: 'swinging',
};

/** 'adults', 'children', or a walker of the user's own as '“tall-rod”'. */
export const whoWords = (who: string): string => WHO[who] ?? `\u201c${named(who)}\u201d`;

/** The same of one: 'an adult'; a name stays as it is. */
export function oneWords(who: string): string {
  const many = WHO[who];
  if (many === undefined || many.startsWith('the ')) return whoWords(who);
  const one = many
    .replace(/^children/, 'child')
    .replace(/^wheelchairs that are/, 'wheelchair that is')
    .replace(
      /^((?:\w+ )*?)(adults|dogs|cats|users|robots|vacuums|rods|tables)\b/,
      (_, before: string, noun: string) => before + noun.slice(0, -1),
    );
  return `${/^[aeiou]/.test(one) ? 'an' : 'a'} ${one}`;
}

/** 'adults turning back'. */
export const passageWords = (who: string, kind: string): string => `${whoWords(who)} ${KIND[kind] ?? named(kind)}`;

/** '62 % adults going through, 24 % children going through, …': the mix a number holds for. */
export function mixWords(mix: readonly MixEntry[]): string {
  return joined(mix.map((m) => `${percent(m.share)} ${passageWords(m.who, m.kind)}`));
}

/** 'a', 'a and b', 'a, b and c'. */
export function joined(parts: readonly string[]): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} and ${parts[parts.length - 1] ?? ''}`;
}

/** First letter large. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** '20 replicates of 8 h'. */
export function extentWords(replicates: number, hours: number): string {
  return `${plural(replicates, 'replicate')} of ${decimal(hours, 2)}${NBSP}h`;
}

/** The logic that gives the headline. */
export const headlineLogic = (design: Design): string => design.logics[0]?.name ?? '';
