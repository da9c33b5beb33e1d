/** Drift of the doors' counts, and what it does to the rooms. */
import type { Design } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import type { Metrics, RoomMetrics } from '../../score/metrics-schema.js';
import { estimateCell, intervalNote } from '../cells.js';
import { drawCharts, type Chart } from '../charts/chart.js';
import { driftChart, driftExtent } from '../charts/drift.js';
import { ledgerWords, roomChart } from '../charts/room.js';
import { html, scrollable, type Markup } from '../html.js';
import { headlineLogic, named } from '../words.js';

/** Charts of one sort that a reader still looks at, and that keep the file small. */
const MOST_CHARTS = 9;

const isChart = (c: Chart | null): c is Chart => c !== null;

export async function driftSection(design: Design, figures: Figures): Promise<Markup | null> {
  const logic = headlineLogic(design);
  // The headline's logic for every door first, then the others while there is room for all of them.
  const headline = figures.drift.filter((b) => b.logic === logic);
  const all = figures.drift.length <= MOST_CHARTS;
  const shown = all ? figures.drift : headline.slice(0, MOST_CHARTS);
  const charts = shown
    .map((b, i) =>
      driftChart(
        `drift-${i}`,
        b,
        driftExtent(figures.drift.filter((o) => o.door === b.door && shown.includes(o))),
        design.replicates,
      ),
    )
    .filter(isChart);
  if (charts.length === 0) return null;
  const drawn = await drawCharts(charts, 3);
  return html`<section aria-labelledby="drift"><h2 id="drift">How the count drifts</h2>
<p>Counted minus true net flow through a door, forward as plus, over all replicates. A band that widens is chance adding up; a band that tilts is a logic that leans to one side.</p>
<div class="charts">${drawn}</div>${!all && html`<p class="key">Drawn for the logic of the headline${headline.length > MOST_CHARTS && html`, first ${MOST_CHARTS} doors`}; the tables have all.</p>`}</section>`;
}

export async function roomsSection(design: Design, metrics: Metrics, figures: Figures): Promise<Markup | null> {
  if (metrics.rooms.length === 0) return null;
  const logic = headlineLogic(design);
  const traces = figures.rooms.filter((t) => t.logic === logic).slice(0, MOST_CHARTS);
  const drawn = await drawCharts(traces.map((t, i) => roomChart(`room-${i}`, t, metrics.hours)).filter(isChart), 3);
  const rooms = [...new Set(metrics.rooms.map((r) => r.room))];
  return html`<section aria-labelledby="rooms"><h2 id="rooms">Rooms over time</h2>
<p>A light that goes out on somebody is worse than one left on, so the two are kept apart.</p>
<div class="charts">${drawn}</div>
${scrollable('Rooms', roomTable(rooms, metrics.rooms))}
${intervalNote(metrics.rooms.flatMap((r) => [r.exact_share, r.empty_while_occupied_share, r.occupied_while_empty_share]))}</section>`;
}

function roomTable(rooms: readonly string[], rows: readonly RoomMetrics[]): Markup {
  return html`<table><caption>Share of the time</caption><thead><tr><th scope="col">logic and ledger</th><th scope="col">exactly right</th><th scope="col">empty while occupied</th><th scope="col">occupied while empty</th><th scope="col">mean error, persons</th></tr></thead>
${rooms.map(
  (room) => html`<tbody><tr><th scope="rowgroup" colspan="5" class="group">${named(room)}</th></tr>
${rows
  .filter((r) => r.room === room)
  .map(
    (r) =>
      html`<tr><th scope="row">${named(r.logic)}, ${ledgerWords(r.ledger)}</th>${estimateCell(r.exact_share, 'share')}${estimateCell(r.empty_while_occupied_share, 'share')}${estimateCell(r.occupied_while_empty_share, 'share')}${estimateCell(r.mean_absolute_error)}</tr>`,
  )}</tbody>`,
)}</table>`;
}
