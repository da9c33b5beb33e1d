/** What differs between the designs, key by key. */
import { type DifferingKey, differingKeys } from '../../../scenario/differing-keys.js';
import { html, scrollable, type Markup } from '../../html.js';
import { named, plural } from '../../words.js';
import { valueWords } from '../keys.js';
import { type CompareRun, labelWords } from '../runs.js';

/** Rows that stand unfolded. */
const MOST_ROWS = 40;
const MOST_PLACES = 3;

/** @param about the runs, for who files the page */
export function differsSection(runs: readonly CompareRun[], about: Markup): Markup {
  const keys = differingKeys(runs.map(({ design }) => design));
  const [shown, rest] = [keys.slice(0, MOST_ROWS), keys.slice(MOST_ROWS)];
  const tables = new Set(runs.flatMap(({ design }) => Object.keys(design.tables)));
  const unequal = keys.filter(({ key }) => key.startsWith('tables.')).length;
  return html`<section aria-labelledby="differs"><h2 id="differs">What differs</h2>
${
  keys.length === 0
    ? html`<p>Nothing: the designs are the same in every key, logic tables included.</p>`
    : html`<p>${plural(keys.length, 'key')} of the designs ${keys.length === 1 ? 'differs' : 'differ'}, named as <code>--set</code> names them; <code>*</code> stands for several doors, beams or the like that differ alike.${tables.size > 0 && unequal === 0 && ' All logic tables are equal.'}</p>
${table(runs, shown)}${rest.length > 0 && html`<details class="long"><summary>${plural(rest.length, 'more key')}</summary>${table(runs, rest)}</details>`}`
}
${about}</section>`;
}

function table(runs: readonly CompareRun[], keys: readonly DifferingKey[]): Markup {
  return scrollable(
    'What differs between the designs',
    html`<table class="compare"><caption class="hidden">What differs between the designs</caption><thead><tr><th scope="col">key</th>${runs.map((run) => html`<th scope="col">${labelWords(run)}</th>`)}</tr></thead>
<tbody>${keys.map((one) => html`<tr><th scope="row"><code>${named(one.key)}</code>${placesOf(one)}</th>${one.values.map((value) => html`<td>${valueWords(one, value)}</td>`)}</tr>`)}</tbody></table>`,
  );
}

function placesOf({ places }: DifferingKey): Markup | null {
  if (places.length < 2) return null;
  const shown = places.slice(0, MOST_PLACES).map(named).join(', ');
  return html`<small>${plural(places.length, 'place')}: ${shown}${places.length > MOST_PLACES && ', …'}</small>`;
}
