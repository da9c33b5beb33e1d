/** What was asked of the design, and whether the numbers give it. */
import type { Metrics, TargetOutcome } from '../../score/metrics-schema.js';
import { EVERY_ROOM, HOUSE_TARGETS, type TargetPath, findEstimate, parseTargetPath } from '../../score/targets.js';
import { html, scrollable, type Markup } from '../html.js';
import { decimal, estimateWords, named, percent, plural } from '../words.js';

/** In a table. */
const OUTCOME: Readonly<Record<TargetOutcome, string>> = {
  met: '✓ met',
  missed: '✕ missed',
  undecided: '? undecided',
  unknown: '– unknown',
};
/** In a sentence, after 'it is'. */
export const OUTCOME_WORDS: Readonly<Record<TargetOutcome, string>> = {
  met: 'met',
  missed: 'missed',
  undecided: 'not decided',
  unknown: 'without a number',
};

/** What the metrics that a target may name are called where their key alone says too little. */
const METRICS: Readonly<Record<string, string>> = {
  wrong_per_100: 'wrong per 100 crossings',
  missed_per_100: 'missed per 100 crossings',
  extra_per_100: 'extra per 100 crossings',
  reversed_per_100: 'reversed per 100 crossings',
  invented_per_100: 'invented per 100 crossings',
  'drift_per_100.bias': 'drift per 100 crossings',
  'drift_per_100.spread': 'scatter of the drift, persons',
  exact_share: 'share of the time exactly right',
  empty_while_occupied_share: 'share of the time empty while occupied',
  occupied_while_empty_share: 'share of the time occupied while empty',
  mean_absolute_error: 'mean error, persons',
  empty_while_occupied_per_day: 'empty while occupied, times a day',
  occupied_while_empty_per_day: 'occupied while empty, times a day',
  longest_empty_while_occupied_min: 'longest empty while occupied, minutes',
  longest_occupied_while_empty_min: 'longest occupied while empty, minutes',
  first_wrong_h: 'hours until first wrong',
  persons_bias: 'counted minus true, persons',
  persons_absolute_error: 'mean distance from the true number, persons',
};

/** 'all doors: wrong per 100 crossings' for the path `house.wrong_per_100`; a path that is none stands as it is. */
export function metricWords(path: string): string {
  const parsed = parseTargetPath(path);
  if (parsed === null) return named(path);
  const metric = METRICS[parsed.metric] ?? parsed.metric.replace(/[._]/g, ' ');
  const ofRooms = parsed.of === 'house' && HOUSE_TARGETS.some((name) => name === parsed.metric);
  if (parsed.of === 'house' && !ofRooms) return `all doors: ${metric}`;
  const by = [parsed.logic, parsed.of === 'doors' ? undefined : parsed.ledger].filter((x) => x !== undefined);
  const where = whereWords(parsed);
  return `${where}${by.length > 0 ? ` (${by.map(named).join(', ')})` : ''}: ${metric}`;
}

function whereWords(parsed: TargetPath): string {
  if (parsed.of === 'house') return 'all rooms at once';
  if (parsed.of === 'doors') return `door ${named(parsed.name)}`;
  return parsed.name === EVERY_ROOM ? 'the worst room' : `room ${named(parsed.name)}`;
}

/** Metrics that are shares are printed as they are compared: as numbers from 0 to 1. */
export function targetResult(metrics: Metrics, path: string, lowest = false): string {
  const e = findEstimate(metrics, path, lowest);
  if (e === null) return 'no such number';
  const { value, range, note } = estimateWords(e);
  if (value === null) return `not known: ${note ?? ''}`;
  return range === null ? `${value}, no interval` : `${value} (${range})`;
}

export function moreWords(more: number | null): string {
  if (more === null) return '';
  return more > 100_000
    ? 'only more replicates than are sensible would decide'
    : `about ${plural(more, 'more replicate')} would decide`;
}

export function targetTable(metrics: Metrics): Markup | null {
  if (metrics.targets.length === 0) return null;
  return scrollable(
    'Targets',
    html`<table><caption>Targets</caption><thead><tr><th scope="col">what</th><th scope="col">outcome</th><th scope="col">limit</th><th scope="col">this run</th></tr></thead>
<tbody>${metrics.targets.map(
      (t) => html`<tr><th scope="row">${metricWords(t.metric)}</th>
<td class="outcome ${t.outcome}">${OUTCOME[t.outcome]}${t.outcome === 'undecided' && t.more_replicates !== null && html` <small>${moreWords(t.more_replicates)}</small>`}</td><td>${limitWords(t)}</td><td>${targetResult(metrics, t.metric, t.at_most === undefined)}</td></tr>`,
    )}</tbody></table>`,
  );
}

/** 'at most 5', 'at least 0.9', or both. */
export function limitWords(
  t: { at_most?: number | undefined; at_least?: number | undefined },
  as: 'number' | 'share' = 'number',
): string {
  const say = (limit: number): string => (as === 'share' ? percent(limit) : decimal(limit, 4));
  const parts: string[] = [];
  if (t.at_least !== undefined) parts.push(`at least ${say(t.at_least)}`);
  if (t.at_most !== undefined) parts.push(`at most ${say(t.at_most)}`);
  return parts.join(' and ') || 'no limit given';
}
