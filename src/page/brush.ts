/** Dragging over a chart of time picks the span that all of them show. By keyboard the bar's two fields do the same. */
import type { View } from 'vega';
import type { LiveChart } from '../report/charts/live.js';
import { element } from './elements.js';
import { setSpan } from './span.js';

/** A shorter drag is a click, px. */
const LEAST_PX = 6;

export function brush(plot: HTMLElement, { margin, height, clock_h }: LiveChart, view: () => View): void {
  if (clock_h === null) return;
  const pane = element('div', { class: 'brush', attributes: { hidden: '' } });
  plot.append(pane);
  let from: number | null = null;
  const at = (event: PointerEvent): number => {
    const px = event.clientX - plot.getBoundingClientRect().left - margin.left;
    return Math.min(view().width(), Math.max(0, px));
  };
  plot.addEventListener('pointerdown', (event) => {
    if (event.button !== 0 || event.pointerType === 'touch') return;
    from = at(event);
    plot.setPointerCapture(event.pointerId);
  });
  plot.addEventListener('pointermove', (event) => {
    if (from === null) return;
    const [low, high] = [Math.min(from, at(event)), Math.max(from, at(event))];
    pane.hidden = high - low < LEAST_PX;
    Object.assign(pane.style, {
      left: `${margin.left + low}px`,
      width: `${high - low}px`,
      top: `${margin.top}px`,
      height: `${height}px`,
    });
  });
  const end = (event: PointerEvent, done: boolean): void => {
    if (from === null) return;
    const ends = [from, at(event)].sort((a, b) => a - b) as [number, number];
    from = null;
    pane.hidden = true;
    if (!done || ends[1] - ends[0] < LEAST_PX) return;
    const scale = view().scale('x') as { invert(px: number): number };
    setSpan([scale.invert(ends[0]) * clock_h, scale.invert(ends[1]) * clock_h]);
  };
  plot.addEventListener('pointerup', (event) => end(event, true));
  plot.addEventListener('pointercancel', (event) => end(event, false));
  plot.addEventListener('dblclick', () => setSpan(null));
}
