/** What installing takes, side by side; counted from the designs, so there is no chance in it. */
import { type Effort, effortOf } from '../../../effort/effort.js';
import { type Share, holesIn } from '../../../effort/share.js';
import { hoursWords, lengthWords, madeUpMark, money, pricesWords } from '../../effort-words.js';
import { html, scrollable, type Markup } from '../../html.js';
import { count, decimal } from '../../words.js';
import { type CompareRun, labelWords } from '../runs.js';

export function compareEffortSection(runs: readonly CompareRun[]): Markup {
  const all = runs.map(({ design }) => effortOf(design));
  const priced = all.some((effort) => effort.total.drilled.work_cents !== null);
  const rows = (variant: 'drilled' | 'surface'): Markup[] => {
    const row = (what: string, of: (share: Share, effort: Effort) => string): Markup =>
      html`<tr><th scope="row">${what}</th>${all.map((effort) => html`<td class="num">${of(effort.total[variant], effort)}</td>`)}</tr>`;
    return [
      row('Holes', ({ holes }) => count(holesIn(holes))),
      row('Cable', ({ cable_m }) => lengthWords(cable_m)),
      row('Parts', ({ parts_cents }, effort) => `${money(parts_cents, effort.currency)}${madeUpMark(effort)}`),
      row('Work', ({ minutes }) => hoursWords(minutes)),
      ...(priced
        ? [
            row('Cost of work', ({ work_cents }, { currency }) =>
              work_cents === null ? 'no hour’s rate' : money(work_cents, currency),
            ),
          ]
        : []),
    ];
  };
  const body = (variant: 'drilled' | 'surface', title: string): Markup =>
    html`<tbody><tr><th class="group" scope="rowgroup" colspan="${runs.length + 1}">${title}</th></tr>${rows(variant)}</tbody>`;
  const prices = [...new Set(all.map(pricesWords))];
  return html`<section aria-labelledby="effort"><h2 id="effort">What installing takes</h2>
<p>Counted from the designs and their plans; nothing here was simulated. ${prices.length === 1 ? prices[0] : runs.map((run, i) => `${labelWords(run)}: ${pricesWords(all[i]!)} `)}</p>
${scrollable(
  'What installing takes, side by side',
  html`<table class="compare"><caption class="hidden">What installing takes, side by side</caption><thead><tr><td></td>${runs.map((run) => html`<th scope="col">${labelWords(run)}</th>`)}</tr></thead>
${body('drilled', 'Drilled')}${body('surface', 'Surface-mounted, nothing drilled')}
<tbody><tr><th class="group" scope="rowgroup" colspan="${runs.length + 1}">Either way</th></tr><tr><th scope="row">Watt-hours a day</th>${all.map(({ watt_hours_a_day }) => html`<td class="num">${decimal(watt_hours_a_day, 2)}</td>`)}</tr></tbody></table>`,
)}</section>`;
}
