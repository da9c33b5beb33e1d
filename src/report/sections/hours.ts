/** When people go through the doors. */
import { DAY_H } from '../../engine/time.js';
import type { Design } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import type { Metrics } from '../../score/metrics-schema.js';
import { drawCharts, isChart } from '../charts/chart.js';
import { hourlyChart } from '../charts/hourly.js';
import { html, type Markup } from '../html.js';
import { MOST_CHARTS } from './overtime.js';

/** Nothing for a clock shorter than a day without a household: its hours say what the scenario says. */
export async function hoursSection(design: Design, metrics: Metrics, figures: Figures): Promise<Markup | null> {
  const { household } = design;
  if (household === undefined && metrics.hours < DAY_H) return null;
  const shown = figures.hourly.slice(0, MOST_CHARTS);
  const charts = shown.map((counts, i) => hourlyChart(`hourly-${i}`, counts, household !== undefined)).filter(isChart);
  if (charts.length === 0) return null;
  return html`<section aria-labelledby="hours"><h2 id="hours">Who comes when</h2>
<p>The true crossings of the simulated crowd, not what was counted of them.</p>
<div class="charts">${await drawCharts(charts, 3)}</div>${figures.hourly.length > MOST_CHARTS && html`<p class="key">The first ${MOST_CHARTS} of ${figures.hourly.length} doors are drawn.</p>`}</section>`;
}
