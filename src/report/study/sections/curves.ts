/** Response curves: what each factor does at the best design's levels of the others, and to whom. */
import { estimateCell, intervalNote } from '../../cells.js';
import { type Chart, drawCharts, isChart } from '../../charts/chart.js';
import { html, scrollable, type Markup } from '../../html.js';
import { count, joined, whoWords } from '../../words.js';
import { FEW } from '../../worst.js';
import { bodiesChart } from '../charts/bodies.js';
import { curveChart } from '../charts/curve.js';
import { levelsChart } from '../charts/levels.js';
import { factorWords } from '../study-words.js';
import type { StudyView } from '../view.js';
import { factorsByWeight, isNumeric } from '../weights.js';

/** Pictures of each sort, at most: those of the heaviest factors. */
const CURVES = 4;
const LEVELS = 2;
const BODIES = 2;
const WHO_ROWS = 20;

interface Curves {
  readonly numeric: readonly number[];
  readonly shown: readonly number[];
  /** The weightiest factor's first. */
  readonly charts: readonly Chart[];
}

function curvesOf(view: StudyView): Curves {
  const factors = factorsByWeight(view);
  const numeric = factors.filter((f) => isNumeric(view.factors[f]!)).slice(0, CURVES);
  const others = factors.filter((f) => !isNumeric(view.factors[f]!)).slice(0, LEVELS);
  const shown = factors.filter((f) => numeric.includes(f) || others.includes(f));
  const charts = shown
    .map((f) =>
      numeric.includes(f)
        ? curveChart(`curve-${f}`, view, f, factors.find((g) => g !== f) ?? null)
        : levelsChart(`levels-${f}`, view, f),
    )
    .filter(isChart);
  return { numeric, shown, charts };
}

/** The weightiest factor's picture, for the first screen. */
export async function weightiestPicture(view: StudyView): Promise<Markup | null> {
  if (view.best === null) return null;
  const [first] = curvesOf(view).charts;
  return first === undefined ? null : html`${await drawCharts([first], 3)}`;
}

/** The others; the first stands at the top of the page. */
export async function curvesSection(view: StudyView): Promise<Markup | null> {
  if (view.best === null) return null;
  const factors = factorsByWeight(view);
  const { numeric, shown, charts } = curvesOf(view);
  const rest = factors.filter((f) => !shown.includes(f));
  return html`<section aria-labelledby="curves"><h2 id="curves">What each factor does</h2>
<p>One factor at a time, from the best design on. ${numeric.length === 0 && 'No factor is a number, so there are no curves; dots stand for levels. '}Intervals here are each design’s own; two that overlap may still differ surely, because the designs met the same crowds: the ranking compares them pair by pair.${rest.length > 0 && ` Not drawn, for they matter less: ${joined(rest.map((f) => factorWords(view.factors[f]!)))}.`}</p>
${charts.length === 0 && html`<p>Too few designs have a number for a picture.</p>`}${charts.length > 0 && html`<p>The weightiest factor’s picture stands at the top of this page.</p>`}${charts.length > 1 && html`<div class="charts">${await drawCharts(charts.slice(1), 3)}</div>`}
</section>`;
}

export async function bodiesSection(view: StudyView): Promise<Markup | null> {
  const { best } = view;
  if (best === null || best.by_who.length === 0) return null;
  const numeric = factorsByWeight(view).filter((f) => isNumeric(view.factors[f]!));
  const charts = numeric
    .slice(0, BODIES)
    .map((f) => bodiesChart(`bodies-${f}`, view, f))
    .filter(isChart);
  const rows = [...best.by_who].sort(
    (a, b) =>
      Number(a.visits < FEW) - Number(b.visits < FEW) ||
      (b.wrong_per_100_visits.value ?? -1) - (a.wrong_per_100_visits.value ?? -1),
  );
  const shown = rows.slice(0, WHO_ROWS);
  return html`<section aria-labelledby="bodies"><h2 id="bodies">Who is counted wrong</h2>
<p>Wrong counts per 100 visits of each kind of body, under the first logic. A kind that is rare can be counted badly and still weigh little in the ranked number.</p>
${charts.length > 0 && html`<div class="charts">${await drawCharts(charts, 3)}</div>`}
${scrollable(
  'Kinds of body in the best design',
  html`<table><caption>In the best design, most wrong first${rows.some(({ visits }) => visits < FEW) && `, those of fewer than ${FEW} visits last`}</caption><thead><tr><th scope="col">who</th><th scope="col">wrong per 100 visits</th><th scope="col">visits</th></tr></thead>
<tbody>${shown.map(({ who, visits, wrong_per_100_visits }) => html`<tr><th scope="row">${whoWords(who)}</th>${estimateCell(wrong_per_100_visits)}<td class="num">${count(visits)}</td></tr>`)}</tbody></table>`,
)}${rows.length > shown.length && html`<p class="key">${count(rows.length - shown.length)} more kinds are in study.json.</p>`}${intervalNote(shown.map((row) => row.wrong_per_100_visits))}
</section>`;
}
