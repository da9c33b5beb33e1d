/** What was asked of the design, and whether the numbers give it. */
import type { Design } from '../../scenario/schema.js';
import type { Estimate, Metrics } from '../../score/metrics-schema.js';
import { html, scrollable, type Markup } from '../html.js';
import { count, estimateWords, headlineLogic, named } from '../words.js';
import { limitWords } from './opening.js';

const OUTCOME = {
  met: '✓ met',
  missed: '✕ missed',
  undecided: '? undecided',
  unknown: '– unknown',
} as const;

/** 'wrong per 100, all doors' for a path like `house.wrong_per_100`. */
export function metricWords(path: string): string {
  const [where, ...rest] = path.split('.');
  const words = (parts: readonly string[]): string => parts.join(' ').replace(/_/g, ' ');
  if (where === 'house') return `all doors: ${words(rest)}`;
  if (where === 'doors') return `door ${named(rest[0] ?? '')}: ${words(rest.slice(1))}`;
  if (where === 'rooms') return `room ${named(rest[0] ?? '')}: ${words(rest.slice(1))}`;
  return named(path);
}

/** The estimate a target's path means: the first logic and ledger unless the path names others; null when not found. */
export function estimateAt(design: Design, metrics: Metrics, path: string): Estimate | null {
  const [where, ...rest] = path.split('.');
  const logic = headlineLogic(design);
  let at: unknown;
  let keys = rest;
  if (where === 'house') at = metrics.house;
  else if (where === 'doors' || where === 'rooms') {
    const rows: readonly { logic: string; ledger?: string }[] = where === 'doors' ? metrics.doors : metrics.rooms;
    const nameOf = (r: object): string => ('door' in r ? String(r.door) : 'room' in r ? String(r.room) : '');
    let fitting = rows.filter((r) => nameOf(r) === rest[0]);
    keys = rest.slice(1);
    if (fitting.some((r) => r.logic === keys[0])) {
      fitting = fitting.filter((r) => r.logic === keys[0]);
      keys = keys.slice(1);
    } else fitting = fitting.filter((r) => r.logic === logic);
    if (fitting.some((r) => r.ledger === keys[0])) {
      fitting = fitting.filter((r) => r.ledger === keys[0]);
      keys = keys.slice(1);
    }
    at = fitting[0];
  }
  for (const key of keys) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, key)) return null;
    at = (at as Record<string, unknown>)[key];
  }
  return typeof at === 'object' && at !== null && 'value' in at && 'low' in at ? (at as Estimate) : null;
}

/** Metrics that are shares are printed as they are compared: as numbers from 0 to 1. */
export function targetResult(design: Design, metrics: Metrics, path: string): string {
  const e = estimateAt(design, metrics, path);
  if (e === null) return 'no such number';
  const { value, range, note } = estimateWords(e);
  if (value === null) return `not known: ${note ?? ''}`;
  return range === null ? `${value}, no interval` : `${value} (${range})`;
}

export function moreWords(more: number | null): string {
  if (more === null) return '';
  return more > 100_000 ? 'more replicates than are sensible' : `about ${count(more)} more replicates would decide`;
}

export function targetTable(design: Design, metrics: Metrics): Markup | null {
  if (metrics.targets.length === 0) return null;
  return scrollable(
    'Targets',
    html`<table><caption>Targets</caption><thead><tr><th scope="col">what</th><th scope="col">limit</th><th scope="col">this run</th><th scope="col">outcome</th></tr></thead>
<tbody>${metrics.targets.map(
      (
        t,
      ) => html`<tr><th scope="row">${metricWords(t.metric)}</th><td>${limitWords(t)}</td><td>${targetResult(design, metrics, t.metric)}</td>
<td class="outcome ${t.outcome}">${OUTCOME[t.outcome]}${t.outcome === 'undecided' && t.more_replicates !== null && html` <small>${moreWords(t.more_replicates)}</small>`}</td></tr>`,
    )}</tbody></table>`,
  );
}
