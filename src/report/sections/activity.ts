/** The headline at half, as assumed, and at double the activity. */
import type { Design } from '../../scenario/schema.js';
import type { ActivityRun, Figures } from '../../score/figures.js';
import { estimateCell, intervalNote } from '../cells.js';
import { html, scrollable, type Markup } from '../html.js';
import { waitCell } from '../wait-words.js';
import { capital, count, decimal } from '../words.js';
import { ledgerWords } from '../ledger-words.js';

export function activitySection(design: Design, { activity }: Pick<Figures, 'activity'>): Markup | null {
  if (activity === undefined || activity.length === 0) return null;
  const { household } = design;
  const ledger = design.ledgers[0]?.name;
  const first = activity[0]!.replicates;
  const rooms = activity.every((run) => run.exact_share !== undefined && run.first_wrong_h !== undefined);
  const scaled = household
    ? `free moves, guests, errands and animals${household.activity === 1 ? '' : ` (as assumed: ${decimal(household.activity)} times the built-in habits)`}; fixed times stay`
    : 'how many parties come to each door';
  const row = (run: ActivityRun): Markup =>
    html`<tr><th scope="row">${capital(run.what)}</th>${estimateCell(run.wrong_per_100)}${rooms && html`${estimateCell(run.exact_share!, 'share')}${waitCell(run.first_wrong_h!, 'h')}`}</tr>`;
  return html`<section aria-labelledby="activity"><h2 id="activity">If the house were calmer or busier</h2>
<p>Nobody has surveyed how often people at home walk from room to room, so that was assumed. Here ${first === 1 ? 'the first replicate was' : `the first ${count(first)} replicates were`} run again with half and with double of it: ${scaled}.</p>
${scrollable(
  'Half and double the activity',
  html`<table><caption>Activity</caption><thead><tr><th scope="col">activity</th><th scope="col">wrong per 100 crossings</th>${rooms && html`<th scope="col">all rooms right at once${ledger !== undefined && html` <small>${ledgerWords(ledger)}</small>`}</th><th scope="col">first wrong after</th>`}</tr></thead>
<tbody>${activity.map(row)}</tbody></table>`,
)}${intervalNote(activity.flatMap((run) => [run.wrong_per_100, ...(run.exact_share ? [run.exact_share] : [])]))}</section>`;
}
