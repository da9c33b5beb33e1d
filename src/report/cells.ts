/** Estimates as table cells, and the footnote that says how their intervals were made. */
import type { Estimate } from '../score/metrics-schema.js';
import { html, type Markup } from './html.js';
import { estimateWords } from './words.js';

/** Value large, interval small beneath; a missing one says why. */
export function estimateCell(e: Estimate, as: 'number' | 'share' = 'number'): Markup {
  const { value, range, note } = estimateWords(e, as);
  if (value === null) return html`<td class="num none"><span>not known</span> <small>${note}</small></td>`;
  return html`<td class="num"><b>${value}</b> <small>${range ?? `no interval: ${note ?? 'no reason given'}`}</small></td>`;
}

const METHODS: Readonly<Record<Estimate['method'], string | null>> = {
  'jackknife-t': 'jackknife over replicates with Student’s t',
  'poisson-zero':
    'for a rate without a single event the exact Poisson upper bound, optimistic where events come in clusters',
  'poisson-exact':
    'where all replicates agree the exact limits of a Poisson count, optimistic where events come in clusters',
  wilson: 'Wilson’s interval for independent trials',
  'kaplan-meier': 'Kaplan–Meier median over replicates with log(−log) limits',
  exponential: 'where the median wait is not reached that of a steady rate, ln 2 over the rate',
  oversampled: 'for rare kinds the rate of extra lone parties times how often they come',
  none: null,
};

/** 'Small figures: 95 % intervals (…).' naming the methods in use, with the notes estimates carry. */
export function intervalNote(estimates: readonly Estimate[]): Markup {
  const methods = [...new Set(estimates.map((e) => METHODS[e.method]))].filter((m) => m !== null);
  const notes = [...new Set(estimates.filter((e) => e.value !== null && e.low !== null).map((e) => e.reason))].filter(
    (r) => r !== undefined,
  );
  return html`<p class="key">Small figures: 95 % intervals${methods.length > 0 && ` (${methods.join('; ')})`}.${notes.map((n) => ` Note: ${n}.`)}</p>`;
}
