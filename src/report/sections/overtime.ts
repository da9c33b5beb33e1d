/** Drift of the doors' counts. */
import type { Design } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import { drawCharts, isChart } from '../charts/chart.js';
import { driftChart, driftExtent } from '../charts/drift.js';
import { html, type Markup } from '../html.js';
import { headlineLogic } from '../words.js';

/** Charts of one sort that a reader still looks at, and that keep the file small. */
export const MOST_CHARTS = 9;

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
