/**
 * One chart: a Vega-Lite spec with its finding in words. Drawn twice when the report is made, for a wide column and
 * for a phone, so that letters keep their size; the page shows the one that fits.
 *
 * Colours are CSS variables (theme.ts), so one drawing serves light, dark and print.
 */
import type { TopLevelSpec } from 'vega-lite';
import { html, trusted, type Markup, type Piece } from '../html.js';
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
  readonly margin: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  /** Data, layers and encodings; size, margins and colours are added here. */
  readonly spec: object;
}

/** For filters: what there is to draw. */
export const isChart = (chart: Chart | null): chart is Chart => chart !== null;

/** Outer widths, px: half the column of a desktop page, and a 360 px screen. */
const WIDE = 500;
const NARROW = 320;

/**
 * Draws charts with headings of the given level, one below the heading they stand under. Vega is loaded on the first
 * call, because loading it takes longer than most commands.
 */
export async function drawCharts(charts: readonly Chart[], level: 3 | 4): Promise<Markup[]> {
  if (charts.length === 0) return [];
  const [vega, lite] = await Promise.all([import('vega'), import('vega-lite')]);
  const drawn: Markup[] = [];
  for (const chart of charts) {
    const { margin } = chart;
    const spec = {
      ...chart.spec,
      width: WIDE - margin.left - margin.right,
      height: chart.height,
      padding: margin,
      autosize: { type: 'none' },
      background: null,
      config: THEME,
    };
    const compiled = lite.compile(spec as unknown as TopLevelSpec).spec;
    const view = new vega.View(vega.parse(compiled), { renderer: 'none', logLevel: vega.Error });
    const wide = await view.toSVG();
    await view.width(NARROW - margin.left - margin.right).runAsync();
    const narrow = await view.toSVG();
    view.finalize();
    const height = chart.height + margin.top + margin.bottom;
    drawn.push(html`<figure class="chart" id="${chart.id}">
<figcaption>${level === 3 ? html`<h3>${chart.title}</h3>` : html`<h4>${chart.title}</h4>`}</figcaption>
${embed(wide, chart, 'wide', WIDE, height)}
${embed(narrow, chart, 'narrow', NARROW, height)}
<p class="key">${chart.key}</p></figure>`);
  }
  return drawn;
}

/** Vega's SVG as a labelled picture of the page: ids made unique, what only bloats taken out. */
function embed(svg: string, chart: Chart, size: string, width: number, height: number): Markup {
  const id = `${chart.id}-${size}`;
  // Vega numbers clip paths across all charts ever drawn; here they are numbered within one picture.
  const clips: string[] = [];
  const clip = (name: string): string => {
    if (!clips.includes(name)) clips.push(name);
    return `${id}-${clips.indexOf(name)}`;
  };
  const inner = svg
    .replace(/^<svg[^>]*>/, '')
    .replace(/<\/svg>$/, '')
    .replace(/<path class="(?:background|foreground)"[^>]*\/>/g, '')
    .replace(/ (?:class|role|aria-[a-z]+|pointer-events|font-family)="[^"]*"/g, '')
    .replace(/ (?:opacity|stroke-opacity|fill-opacity)="1"/g, '')
    .replace(/ (?:d|transform)="[^"]*"/g, (place) => place.replace(/(\d+\.\d)\d+/g, '$1'))
    .replace(/<g>\s*<\/g>/g, '')
    .replace(/\bid="([^"]+)"/g, (_, name: string) => `id="${clip(name)}"`)
    .replace(/url\(#([^)]+)\)/g, (_, name: string) => `url(#${clip(name)})`);
  return html`<svg class="${size}" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${id}-t ${id}-d">
<title id="${id}-t">${chart.title}</title><desc id="${id}-d">${chart.summary}</desc>${trusted(inner)}</svg>`;
}
