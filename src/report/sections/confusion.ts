/** What happened against what was tallied. */
import type { Design } from '../../scenario/schema.js';
import type { Column, Confusion, Metrics, Row } from '../../score/metrics-schema.js';
import { html, scrollable, type Markup, type Piece } from '../html.js';
import { count, headlineLogic, joined, named, percent } from '../words.js';

const HEAD: Readonly<Record<Column, string>> = {
  forward: 'tallied forward',
  backward: 'tallied backward',
  nothing: 'not tallied',
  extra: 'tallied once more',
};
const RIGHT: Readonly<Record<Row, Column>> = {
  forward: 'forward',
  backward: 'backward',
  'turned back': 'nothing',
  lingered: 'nothing',
  reached: 'nothing',
  pet: 'nothing',
  thing: 'nothing',
  nobody: 'nothing',
};
const ROW_WORDS: Readonly<Record<Row, string>> = {
  forward: 'went forward',
  backward: 'went backward',
  'turned back': 'turned back',
  lingered: 'lingered',
  reached: 'reached through',
  pet: 'pet',
  thing: 'thing',
  nobody: 'nobody there',
};

/** With more doors than this the other logics' matrices are left to metrics.json, to keep the file small. */
const MOST_WHOLE = 4;

export function confusionSection(design: Design, metrics: Metrics): Markup {
  const logic = headlineLogic(design);
  const brief = design.doors.length > MOST_WHOLE;
  return html`<section aria-labelledby="confusion"><h2 id="confusion">What was tallied</h2>
<p>Each row is what truly happened, each column what the logic made of it. Outlined cells with a tick are right; hatched cells are wrong.${brief && ' For so many doors only the logic of the headline is shown; metrics.json has the others.'}</p>
<div class="matrices">${metrics.doors
    .filter((d) => d.logic === logic)
    .map((d) => {
      const others = brief ? [] : metrics.doors.filter((o) => o.door === d.door && o.logic !== logic);
      return html`<article data-door="${d.door}"><h3>Door ${named(d.door)}, logic ${named(d.logic)}</h3>${matrix(d.confusion, `Door ${named(d.door)}, logic ${named(d.logic)}`)}
${others.length > 0 && html`<details class="long"><summary>The same for ${joined(others.map((o) => named(o.logic)))}</summary>${others.map((o) => html`<h4>Logic ${named(o.logic)}</h4>${matrix(o.confusion, `Door ${named(o.door)}, logic ${named(o.logic)}`)}`)}</details>`}</article>`;
    })}</div></section>`;
}

function matrix(c: Confusion, label: string): Markup {
  const rows = c.rows.map((row, i) => ({ row, counts: c.counts[i] ?? [] }));
  const used = rows.filter(({ counts }) => counts.some((n) => (n ?? 0) > 0));
  if (used.length === 0) return html`<p>Nobody passed and nothing was tallied.</p>`;
  const left = rows.filter((r) => !used.includes(r)).map(({ row }) => ROW_WORDS[row]);
  return html`${scrollable(
    `Confusion matrix: ${label}`,
    html`<table class="confusion"><caption class="hidden">Confusion matrix: ${label}</caption><thead><tr><th scope="col">what happened</th>${c.columns.map((col) => html`<th scope="col">${HEAD[col]}</th>`)}</tr></thead>
<tbody>${used.map(({ row, counts }) => html`<tr><th scope="row">${ROW_WORDS[row]}</th>${c.columns.map((col, j) => cell(row, col, counts, c.columns, j))}</tr>`)}</tbody></table>`,
  )}${left.length > 0 && html`<p class="key">Rows without an entry are left out: ${joined(left)}.</p>`}`;
}

function cell(
  row: Row,
  column: Column,
  counts: readonly (number | null)[],
  columns: readonly Column[],
  j: number,
): Piece {
  const n = counts[j];
  if (n === null || n === undefined) return html`<td class="num none"><span class="hidden">does not apply</span></td>`;
  // Shares are of a row's bodies: `extra` tallies come on top and are not a part of them.
  const bodies = counts.reduce<number>((sum, x, k) => (columns[k] === 'extra' ? sum : sum + (x ?? 0)), 0);
  const share = row === 'nobody' || bodies === 0 ? null : n / bodies;
  const right = RIGHT[row] === column;
  const kind = n === 0 ? 'zero' : right ? 'right' : 'wrong';
  // The share is rounded to a tenth of a percent; depth of shade follows it.
  const shade = share === null ? 0.5 : Math.min(1, Math.max(0.12, share));
  return html`<td class="num ${kind}" style="--shade:${Math.round(shade * 100)}%"><b>${count(n)}</b>${kind === 'right' && html`<span aria-hidden="true"> ✓</span>`}${
    kind !== 'zero' && html`<span class="hidden"> (${kind})</span>`
  }${share !== null && n > 0 && column !== 'extra' && html` <small>${share < 0.0005 ? '<\u00a00.1\u00a0%' : percent(Math.round(share * 1000) / 1000)}</small>`}</td>`;
}
