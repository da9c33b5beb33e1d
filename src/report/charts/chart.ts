/**
 * One chart: a Vega-Lite spec with its finding in words. Drawn once when the report is made, so that it is there
 * without a script; where scripts run, the page draws it again as wide as there is room (src/page).
 *
 * Colours are CSS variables (theme.ts), so one drawing serves light, dark and print.
 */
import { drawn } from './drawn.js';
import { Markup, html, trusted, type Piece } from '../html.js';
import { SPAN, type ChartTable, type LiveChart, type Places, type Series, showSignal } from './live.js';
import { leanSvg } from './lean-svg.js';
import { THEME } from './theme.js';

export interface Chart {
  /** Unique on the page; letters, digits and `-`. */
  readonly id: string;
  /** The finding. */
  readonly title: string;
  /** What a reader who does not see the picture should know, in sentences. */
  readonly summary: string;
  /** What lines, dots and bands mean. */
  readonly key: Piece;
  /** Height of the plot area, px. */
  readonly height: number;
  readonly margin: LiveChart['margin'];
  /** Data, layers and encodings; size, margins and colours are added here. */
  readonly spec: object;
  readonly table: ChartTable;
  readonly places: Places;
  /** What of it can be hidden; its marks have `opacity: shownAs(i, …)`. */
  readonly series?: readonly Series[];
  /** Hours in one unit of x, where x is time since the start. */
  readonly clock_h?: number;
  /** What it is about, for a reader who picks a door or a room. */
  readonly door?: string;
  readonly room?: string;
}

/** For filters: what there is to draw. */
export const isChart = (chart: Chart | null): chart is Chart => chart !== null;

/** Outer width, px, between a phone's column and half a desktop's: letters stay readable in both. */
const WIDTH = 400;

/** Draws charts with headings of the given level, one below the heading they stand under. */
export async function drawCharts(charts: readonly Chart[], level: 3 | 4): Promise<Markup[]> {
  const figures: Markup[] = [];
  for (const chart of charts) {
    const { id, title, margin, height, table, places, series = [], clock_h = null, door, room } = chart;
    const spec = {
      ...chart.spec,
      params: [
        ...series.map((_, i) => ({ name: showSignal(i), value: true })),
        ...(clock_h === null ? [] : [{ name: SPAN, value: null }]),
      ],
      width: WIDTH - margin.left - margin.right,
      height,
      padding: margin,
      autosize: { type: 'none' },
      background: null,
      config: THEME,
    };
    const { svg, compiled } = await drawn(spec);
    const about = html`${door !== undefined && html` data-door="${door}"`}${room !== undefined && html` data-room="${room}"`}`;
    const figure = html`<figure class="chart" id="${id}"${about}>
<figcaption>${level === 3 ? html`<h3>${title}</h3>` : html`<h4>${title}</h4>`}</figcaption>
${embed(svg, chart)}
<p class="key">${chart.key}</p></figure>`;
    figures.push(
      new Markup(figure.text, [{ id, title, height, margin, spec: compiled, table, places, series, clock_h }]),
    );
  }
  return figures;
}

/** Vega's SVG as a labelled picture of the page, its ids made unique. */
function embed(svg: string, { id, title, summary, height, margin }: Chart): Markup {
  // Vega numbers clip paths across all charts ever drawn; here they are numbered within one picture.
  const clips: string[] = [];
  const clip = (name: string): string => {
    if (!clips.includes(name)) clips.push(name);
    return `${id}-${clips.indexOf(name)}`;
  };
  const inner = leanSvg(svg.replace(/^<svg[^>]*>/, '').replace(/<\/svg>$/, ''))
    .replace(/\bid="([^"]+)"/g, (_, name: string) => `id="${clip(name)}"`)
    .replace(/url\(#([^)]+)\)/g, (_, name: string) => `url(#${clip(name)})`);
  return html`<svg class="still" viewBox="0 0 ${WIDTH} ${height + margin.top + margin.bottom}" role="img" aria-labelledby="${id}-t ${id}-d">
<title id="${id}-t">${title}</title><desc id="${id}-d">${summary}</desc>${trusted(inner)}</svg>`;
}
