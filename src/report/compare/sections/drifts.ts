/** How far rooms run away under each run, side by side on one scale. */
import { drawCharts } from '../../charts/chart.js';
import { html, type Markup } from '../../html.js';
import { named, plural } from '../../words.js';
import { roomDriftCharts } from '../charts/room-drifts.js';
import type { CompareRun } from '../runs.js';

export async function driftsSection(runs: readonly CompareRun[]): Promise<Markup | null> {
  const { rooms, left_out } = roomDriftCharts(runs);
  if (rooms.length === 0) return null;
  const articles: Markup[] = [];
  for (const { room, charts } of rooms)
    articles.push(
      html`<article><h3>Room ${named(room)}</h3><div class="charts">${await drawCharts(charts, 4)}</div></article>`,
    );
  return html`<section aria-labelledby="drift"><h2 id="drift">How far rooms run away</h2>
<p>Counted minus true persons over the clock, by each run’s first logic and ledger, all on one scale.${left_out > 0 && ` The rooms that run away farthest; ${plural(left_out, 'more room')} ${left_out === 1 ? 'is' : 'are'} in the runs’ own reports.`}</p>
${articles}</section>`;
}
