/** One chart brought to life in its figure: drawn as wide as there is room, read, filtered, saved. */
import type { View } from 'vega';
import { type LiveChart, SPAN, showSignal } from '../report/charts/live.js';
import { brush } from './brush.js';
import { button, element } from './elements.js';
import { legend } from './legend.js';
import { Readout } from './readout.js';
import { csvOf, pngOf, save, svgOf } from './save.js';
import { followSpan } from './span.js';
import { tableOf } from './table.js';
import { drawnIn } from './vega.js';

/** Wider only makes lines longer, px. */
const WIDEST = 580;

export async function bringToLife(figure: HTMLElement, chart: LiveChart): Promise<void> {
  const { margin } = chart;
  const key = figure.querySelector('.key');
  const plot = element('div', { class: 'plot' });
  const picture = element('div', { class: 'drawn', attributes: { 'aria-hidden': 'true' } });
  plot.append(picture);
  figure.insertBefore(plot, key);
  figure.classList.add('live');
  const width = (): number => Math.min(WIDEST, figure.clientWidth) - margin.left - margin.right;
  const view: View = await drawnIn(picture, chart);
  await view.width(width()).runAsync();

  const hidden = new Set<number>();
  const readout = new Readout(
    plot,
    chart,
    () => view,
    (series) => hidden.has(series),
  );
  brush(plot, chart, () => view);
  const choices = legend(chart, (series, shown) => {
    if (shown) hidden.delete(series);
    else hidden.add(series);
    readout.hide();
    void view.signal(showSignal(series), shown).runAsync();
  });
  if (choices !== null) figure.insertBefore(choices, key);
  figure.insertBefore(tools(chart, view), key);

  const { clock_h } = chart;
  if (clock_h !== null)
    followSpan((span) => {
      readout.hide();
      void view.signal(SPAN, span && span.map((h) => h / clock_h)).runAsync();
    });
  new ResizeObserver(() => {
    const now = width();
    if (now <= 0 || now === view.width()) return;
    readout.hide();
    void view.width(now).runAsync();
  }).observe(figure);
}

/** What can be had of a chart beside its picture. */
function tools(chart: LiveChart, view: View): HTMLElement {
  const { id, title, margin, height, table } = chart;
  let open: HTMLElement | null = null;
  const show = button(
    'Table',
    () => {
      show.setAttribute('aria-expanded', String(open === null));
      if (open === null) {
        open = tableOf(chart);
        row.after(open);
      } else {
        open.remove();
        open = null;
      }
    },
    { 'aria-expanded': 'false' },
  );
  const outer = (): [number, number] => [
    view.width() + margin.left + margin.right,
    height + margin.top + margin.bottom,
  ];
  const row = element(
    'div',
    { class: 'tools', attributes: { role: 'group', 'aria-label': `Of this chart: ${title}` } },
    [
      show,
      button('CSV', () => save(`${id}.csv`, new Blob([csvOf(table)], { type: 'text/csv' })), {
        'aria-label': 'Save the numbers as CSV',
      }),
      button('SVG', async () => save(`${id}.svg`, new Blob([await svgOf(view, title)], { type: 'image/svg+xml' })), {
        'aria-label': 'Save the picture as SVG',
      }),
      button('PNG', async () => save(`${id}.png`, await pngOf(await svgOf(view, title), ...outer())), {
        'aria-label': 'Save the picture as PNG',
      }),
    ],
  );
  return row;
}
