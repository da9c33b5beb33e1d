/** All designs ranked, with differences to the best; and those that failed. */
import type { RankedDesign } from '../../../study/summary-schema.js';
import { estimateCell, intervalNote } from '../../cells.js';
import { html, scrollable, type Markup } from '../../html.js';
import { capital, count, decimal, plain, plural } from '../../words.js';
import {
  COSTS,
  costTitle,
  type CostKey,
  designWords,
  differenceParts,
  effortWords,
  factorWords,
  levelWords,
  metricAxis,
} from '../study-words.js';
import type { StudyView } from '../view.js';

/** Rows of the table; further designs are in the results. */
export const MOST_ROWS = 200;
const MOST_FAILED = 50;
/** With more factors than these the levels stand in one cell. */
const MOST_COLUMNS = 4;

export function rankingSection(view: StudyView): Markup {
  const { summary, ranked } = view;
  return html`<section aria-labelledby="ranking"><h2 id="ranking">The ranking</h2>
${ranked.length === 0 ? html`<p>No design has a number yet.</p>` : rankingTable(view)}
${unrankedWords(view)}
${failedTable(view)}
${summary.left_out > 0 && html`<p>${plural(summary.left_out, 'combination')} of levels did not meet the study’s conditions and ${summary.left_out === 1 ? 'is' : 'are'} no design.</p>`}
</section>`;
}

function rankingTable(view: StudyView): Markup {
  const { summary, ranked, factors } = view;
  const shown = ranked.slice(0, MOST_ROWS);
  const columns = factors.length <= MOST_COLUMNS;
  const costs = COSTS.filter((key) => summary.designs.some(({ effort }) => effort[key] !== null));
  const unpaired = ranked.some(({ paired }) => !paired);
  const estimates = shown.flatMap((row) => view.estimate(view.design(row)) ?? []);
  const { replicates } = summary.ranking;
  return html`${scrollable(
    'Designs ranked',
    html`<table class="ranking"><caption>${capital(metricAxis(view))}, best first</caption><thead><tr><th scope="col">design</th><th scope="col">estimate</th>${columns ? factors.map((factor) => html`<th scope="col">${factorWords(factor)}</th>`) : html`<th scope="col">levels</th>`}<th scope="col">worse than the best by</th><th scope="col">p</th><th scope="col">may be the best</th>${costs.map((key) => html`<th scope="col">${costTitle(key, summary.currency)}</th>`)}<th scope="col">replicates</th></tr></thead>
<tbody>${shown.map((row) => rowOf(view, row, columns, costs))}</tbody></table>`,
  )}
<p class="key">Estimates rest on all replicates of a design, differences and the order on the ${plural(replicates, 'replicate')} that all ranked designs have${summary.replicates.fixed === null && ', so the two can differ a little'}. Intervals of differences hold with 95\u00a0% confidence for all pairs of designs at once; p is adjusted for all of them too.${unpaired && ' Where a design met other crowds than the best, which “other crowds” says, chance in the crowds is in the difference as well.'}${ranked.length > shown.length && ` The first ${count(MOST_ROWS)} of ${plural(ranked.length, 'design')} are shown; results.csv has all.`}</p>${intervalNote(estimates)}`;
}

function rowOf(view: StudyView, row: RankedDesign, columns: boolean, costs: readonly CostKey[]): Markup {
  const { factors } = view;
  const design = view.design(row);
  const e = view.estimate(design);
  const levels = columns
    ? factors.map((factor, f) => html`<td>${levelWords(factor, design.levels[f])}</td>`)
    : html`<td class="levels">${designWords(view, design.levels)}</td>`;
  return html`<tr><th scope="row">${design.number}</th>${e === null ? html`<td class="num none">not known</td>` : estimateCell(e, view.as)}${levels}${differenceCell(view, row)}<td class="num">${pWords(row.p)}</td><td>${row.perhaps_best ? 'perhaps' : 'no'}</td>${costs.map((key) => html`<td class="num">${effortWords(design, key, null)}</td>`)}<td class="num">${count(design.replicates)}${endWords(view, design)}</td></tr>`;
}

function differenceCell(view: StudyView, { worse_than_best, paired }: RankedDesign): Markup {
  if (worse_than_best === null) return html`<td class="num">–</td>`;
  const { value, range } = differenceParts(view, worse_than_best);
  return html`<td class="num"><b>${value ?? 'not known'}</b> <small>${range ?? 'no interval'}</small>${!paired && html`<small>other crowds</small>`}</td>`;
}

/** '0.012'; never nothing. */
function pWords(p: number | null): string {
  if (p === null) return '–';
  return p < 0.001 ? '<\u00a00.001' : decimal(p, p < 0.1 ? 3 : 2);
}

/** Only what is out of the ordinary: a budget used up, or not done. */
function endWords(view: StudyView, { state, ended }: StudyView['summary']['designs'][number]): Markup | null {
  const words =
    state === 'unfinished' ? 'unfinished' : ended === 'replicates' || ended === 'passages' ? 'budget used up' : null;
  return words === null || (words === 'unfinished' && view.summary.finished) ? null : html`<small>${words}</small>`;
}

function unrankedWords({ summary, ranked }: StudyView): Markup | null {
  const failed = summary.designs.filter(({ state }) => state === 'failed').length;
  const rest = summary.designs.length - ranked.length - failed;
  return rest <= 0
    ? null
    : html`<p>${plural(rest, 'design')} ${rest === 1 ? 'is' : 'are'} not ranked: not begun, or without anything to divide by.</p>`;
}

function failedTable(view: StudyView): Markup | null {
  const failed = view.summary.designs.filter(({ state }) => state === 'failed');
  if (failed.length === 0) return null;
  const shown = failed.slice(0, MOST_FAILED);
  return html`<h3>Designs that failed</h3>${scrollable(
    'Designs that failed',
    html`<table class="told"><caption class="hidden">Designs that failed</caption><thead><tr><th scope="col">design</th><th scope="col">levels</th><th scope="col">why</th></tr></thead>
<tbody>${shown.map((design) => html`<tr><th scope="row">${design.number}</th><td class="say">${designWords(view, design.levels)}</td><td class="say">${plain(design.error ?? 'no reason given')}</td></tr>`)}</tbody></table>`,
  )}${failed.length > shown.length && html`<p class="key">${count(failed.length - shown.length)} more are in study.json.</p>`}`;
}
