/** Why visits were counted wrong: causes with their numbers a week, over all doors, door by door, logic by logic. */
import type { Design } from '../../scenario/schema.js';
import type { Metrics, WhyMetrics } from '../../score/metrics-schema.js';
import { REMOVALS, REMOVAL_MEANS, STRUCTURES, STRUCTURE_MEANS } from '../../score/why-classes.js';
import { estimateCell, intervalNote } from '../cells.js';
import { drawCharts, isChart } from '../charts/chart.js';
import { whyChart } from '../charts/why.js';
import { html, scrollable, type Markup } from '../html.js';
import { causeWords, errorWords, roughly } from '../why-words.js';
import { capital, count, headlineLogic, named, percent, plural } from '../words.js';

export async function whySection(design: Design, metrics: Metrics): Promise<Markup | null> {
  const logic = headlineLogic(design);
  const all = metrics.why.find((why) => why.door === null && why.logic === logic);
  if (!all) return null;
  return html`<section aria-labelledby="why"><h2 id="why">Why</h2>
${
  all.wrong === 0
    ? html`<p>Nothing went wrong by the logic ${named(logic)} in the replicates that were looked at.</p>`
    : html`<p>Of ${plural(all.wrong, 'wrong visit')} and tallies of nobody by the logic ${named(logic)}, ${all.explained === all.wrong ? 'all' : count(all.explained)} were simulated again, from where the logic truly stood and with the same draws, with one thing taken away at a time. If exactly one thing makes it right, that is the cause.</p>
<div class="side why"><div>${await drawCharts([whyChart('why-chart', all)].filter(isChart), 3)}</div>
<div>${causeTable(all)}</div></div>`
}
${mainTable(
  'By door',
  'door',
  metrics.why.filter((why) => why.logic === logic && why.door !== null).map((why) => [why.door ?? '', why]),
)}
${mainTable(
  'By logic',
  'logic',
  design.logics.length < 2 ? [] : metrics.why.filter((why) => why.door === null).map((why) => [why.logic, why]),
)}
<details class="long"><summary>What is taken away, and what is read from the record</summary>
<dl class="words">${REMOVALS.map((one) => html`<div><dt>${one}</dt><dd>${capital(REMOVAL_MEANS[one])}.</dd></div>`)}
${STRUCTURES.map((one) => html`<div><dt>${one}</dt><dd>${capital(STRUCTURE_MEANS[one])}.</dd></div>`)}</dl>
<p>Things are taken away in this order, one at a time, then two at a time; only where nothing helps the record is read, in this order too.</p></details>
</section>`;
}

function causeTable(why: WhyMetrics): Markup {
  return html`${scrollable(
    'Causes of wrong counts',
    html`<table><caption>Causes, most frequent first</caption><thead><tr><th scope="col">cause</th><th scope="col">a week</th><th scope="col">share</th><th scope="col">cases</th><th scope="col">wrong counts, by kind</th></tr></thead>
<tbody>${why.causes.map(
      (cause) =>
        html`<tr><th scope="row">${capital(causeWords(cause))}</th>${estimateCell(cause.per_week)}${estimateCell(cause.share, 'share')}<td class="num">${count(cause.explained)}</td><td>${errorWords(cause.errors)}</td></tr>`,
    )}</tbody></table>`,
  )}${intervalNote(why.causes.flatMap(({ per_week, share }) => [per_week, share]))}`;
}

/** Causes told of each place. */
const TOLD = 3;

function mainTable(title: string, what: string, rows: readonly (readonly [string, WhyMetrics])[]): Markup | null {
  if (rows.length === 0) return null;
  return html`<article><h3>${title}</h3>${scrollable(
    `Causes ${title.toLowerCase()}`,
    html`<table><caption class="hidden">Causes ${title.toLowerCase()}</caption><thead><tr><th scope="col">${what}</th><th scope="col">went wrong</th><th scope="col">mostly by</th></tr></thead>
<tbody>${rows.map(([name, { wrong, causes }]) => {
      const told = causes
        .slice(0, TOLD)
        .map((cause) => `${causeWords(cause)} ${percent(roughly(cause.share.value ?? 0))}`)
        .join(', ');
      return html`<tr><th scope="row">${named(name)}</th><td class="num">${count(wrong)}</td><td>${told === '' ? '–' : told}</td></tr>`;
    })}</tbody></table>`,
  )}</article>`;
}
