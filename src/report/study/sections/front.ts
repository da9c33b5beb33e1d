/** What designs take to install, against how well they count. */
import { drawCharts, isChart } from '../../charts/chart.js';
import { estimateCell } from '../../cells.js';
import { html, scrollable, type Markup } from '../../html.js';
import { count, joined, plural } from '../../words.js';
import { frontChart } from '../charts/front.js';
import { COSTS, COST_WORDS, designWords, effortWords } from '../study-words.js';
import type { StudyView } from '../view.js';

/** Designs of the front told one by one. */
const MOST_ROWS = 30;

export async function frontSection(view: StudyView): Promise<Markup | null> {
  const { summary, best } = view;
  if (best === null) return null;
  const by = COSTS.filter((key) => summary.front.by.includes(key));
  if (by.length === 0)
    return html`<section aria-labelledby="effort"><h2 id="effort">What it takes</h2>
<p>No design takes more than another as far as is known, so there is nothing to weigh: ${joined(COSTS.map((key) => `${COST_WORDS[key]} ${effortWords(best, key, summary.currency)}`))}.</p></section>`;
  const charts = by.map((key) => frontChart(`front-${key.replace('_', '-')}`, view, key)).filter(isChart);
  const on = summary.front.designs.flatMap((number) => view.numbered(number) ?? []);
  const rows = on.sort((a, b) => (a.effort[by[0]!] ?? 0) - (b.effort[by[0]!] ?? 0) || a.number - b.number);
  const shown = rows.slice(0, MOST_ROWS);
  return html`<section aria-labelledby="effort"><h2 id="effort">What it takes</h2>
<p>Of ${plural(view.ranked.length, 'ranked design')}, ${on.length === 1 ? 'one is' : `${count(on.length)} are`} beaten by no other: whichever is better in ${joined(['the ranked number', ...by.map((key) => COST_WORDS[key])]).replace(/ and (?=[^ ]*$)/, ' or ')} is worse in another of these. That goes by the estimates alone: a step that lies within the intervals may be chance.</p>
${charts.length > 0 && html`<div class="charts">${await drawCharts(charts, 3)}</div>`}
${scrollable(
  'Designs that no other beats',
  html`<table class="told"><caption>Designs that no other beats, least ${COST_WORDS[by[0]!]} first</caption><thead><tr><th scope="col">design</th>${by.map((key) => html`<th scope="col">${COST_WORDS[key]}</th>`)}<th scope="col">ranked number</th></tr></thead>
<tbody>${shown.map((design) => {
    const e = view.estimate(design);
    return html`<tr><th scope="row">${design.number}: ${designWords(view, design.levels)}</th>${by.map((key) => html`<td class="num">${effortWords(design, key, summary.currency)}</td>`)}${e === null ? html`<td class="num none">not known</td>` : estimateCell(e, view.as)}</tr>`;
  })}</tbody></table>`,
)}${rows.length > shown.length && html`<p class="key">${count(rows.length - shown.length)} more are in study.json.</p>`}
</section>`;
}
