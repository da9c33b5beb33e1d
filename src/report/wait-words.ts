/** How long something takes, or lasts: in the unit that suits it, with an interval that may be open. */
import type { Estimate } from '../score/metrics-schema.js';
import { html, type Markup } from './html.js';
import { count } from './words.js';

const NBSP = '\u00a0';
const UNITS = [
  { to_h: 2, times: 60, word: 'min' },
  { to_h: 48, times: 1, word: 'h' },
  { to_h: Infinity, times: 1 / 24, word: 'days' },
] as const;
const HOURS = { min: 1 / 60, h: 1, days: 24 } as const;
export type TimeUnit = keyof typeof HOURS;

/** Two digits, or all those before the point. */
function digits(x: number): string {
  if (x === 0) return '0';
  if (x < 0.01) return `<${NBSP}0.01`;
  return x >= 10 ? count(x) : String(Number(x.toPrecision(2)));
}

function unitFor(hours: number): (typeof UNITS)[number] {
  return UNITS.find(({ to_h }) => hours < to_h) ?? UNITS[2];
}

/** '14 min', '3.2 h', '5 days'. */
export function durationWords(time: number, unit: TimeUnit): string {
  const hours = time * HOURS[unit];
  const { times, word } = unitFor(hours);
  return `${digits(hours * times)}${NBSP}${word}`;
}

export interface WaitWords {
  /** Null where the run gives none. */
  readonly value: string | null;
  /** '1.1 to 7 h', '1.1 h or longer'; null without an interval. */
  readonly range: string | null;
  readonly note: string | null;
}

/** A wait whose interval may lack its high end, or of which only the low end is known. */
export function waitParts(e: Estimate, unit: TimeUnit): WaitWords {
  const note = e.reason ?? null;
  const value = e.value === null ? null : durationWords(e.value, unit);
  if (e.low === null) return { value, range: null, note };
  if (e.high === null) return { value, range: `${durationWords(e.low, unit)} or longer`, note };
  const { times, word } = unitFor((e.value ?? e.high) * HOURS[unit]);
  const end = (x: number): string => digits(x * HOURS[unit] * times);
  return { value, range: `${end(e.low)} to ${end(e.high)}${NBSP}${word}`, note };
}

/** '3.2 h (95 % interval 1.1 to 7 h)'; 'not known (why)'. */
export function waitWords(e: Estimate, unit: TimeUnit): string {
  const { value, range, note } = waitParts(e, unit);
  if (value === null) return range === null ? `not known (${note ?? 'no reason given'})` : range;
  return range === null
    ? `${value} (no interval: ${note ?? 'no reason given'})`
    : `${value} (95${NBSP}% interval ${range})`;
}

/** The same as a table cell. */
export function waitCell(e: Estimate, unit: TimeUnit): Markup {
  const { value, range, note } = waitParts(e, unit);
  if (value !== null)
    return html`<td class="num"><b>${value}</b> <small>${range ?? `no interval: ${note ?? 'no reason given'}`}</small></td>`;
  return range === null
    ? html`<td class="num none"><span>not known</span> <small>${note ?? 'no reason given'}</small></td>`
    : html`<td class="num"><b>${range}</b> <small>median not reached</small></td>`;
}
