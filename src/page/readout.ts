/** Values where a reader points, with the pointer or with the arrow keys: a line or a ring in the picture, a box with words. */
import type { View } from 'vega';
import type { LiveChart } from '../report/charts/live.js';
import { element } from './elements.js';
import { shown } from './numbers.js';

const PAGE = 10;

export class Readout {
  private readonly box = element('div', { class: 'readout', attributes: { hidden: '' } });
  private readonly mark = element('div', { class: 'at', attributes: { hidden: '' } });
  private row = -1;

  /**
   * @param plot the element the picture is in; becomes what takes the keys
   * @param hidden whether a series is left out
   */
  constructor(
    private readonly plot: HTMLElement,
    private readonly chart: LiveChart,
    private readonly view: () => View,
    private readonly hidden: (series: number) => boolean,
  ) {
    const { rows } = chart.table;
    plot.append(this.mark, this.box);
    if (rows.length === 0) return;
    for (const [key, value] of Object.entries({
      tabindex: 0,
      role: 'slider',
      'aria-label': `Values of: ${chart.title}`,
      'aria-valuemin': 1,
      'aria-valuemax': rows.length,
      'aria-valuenow': 1,
      'aria-valuetext': 'use the arrow keys to read values',
    }))
      plot.setAttribute(key, String(value));
    plot.addEventListener('pointermove', (event) => this.pointed(event));
    plot.addEventListener('pointerleave', () => this.hide());
    plot.addEventListener('blur', () => this.hide());
    plot.addEventListener('keydown', (event) => this.key(event));
  }

  /** The row's words: 'time 3.5 h; truth 2; counted 3'. */
  words(row: number): string[] {
    const { columns, rows } = this.chart.table;
    return columns.flatMap(({ title, series }, c) =>
      series !== undefined && this.hidden(series) ? [] : [`${title}: ${shown(rows[row]![c] ?? null)}`],
    );
  }

  hide(): void {
    this.row = -1;
    this.box.hidden = true;
    this.mark.hidden = true;
  }

  /** Points at a row, if the picture shows it. */
  private show(row: number): void {
    const { margin, height } = this.chart;
    const [x, y] = this.placeOf(row);
    const width = this.view().width();
    const inside = (place: number | null, end: number): boolean => place === null || (place >= -1 && place <= end + 1);
    this.row = row;
    const words = this.words(row);
    this.plot.setAttribute('aria-valuenow', String(row + 1));
    this.plot.setAttribute('aria-valuetext', words.join('; '));
    this.mark.hidden = !inside(x, width) || !inside(y, height);
    this.mark.className = x === null ? 'at across' : y === null ? 'at along' : 'at both';
    this.mark.style.left = `${margin.left + (x ?? 0)}px`;
    this.mark.style.top = `${margin.top + (y ?? 0)}px`;
    this.mark.style.width = x === null ? `${width}px` : '';
    this.mark.style.height = y === null ? `${height}px` : '';
    this.box.replaceChildren(...words.map((text) => element('div', { text })));
    this.box.hidden = false;
    // Beside the mark, on the side where there is room; never wider than the picture.
    const all = this.plot.clientWidth;
    const left = margin.left + (x ?? width / 2);
    const room = this.box.offsetWidth + 12;
    this.box.style.left = `${Math.max(0, left + room <= all ? left + 12 : Math.min(left - room, all - room))}px`;
    this.box.style.top = `${Math.max(0, margin.top + (y === null ? 4 : y + 14))}px`;
  }

  /** Where a row lies in the plot, px; null along the other axis of a row that has one. */
  private placeOf(row: number): readonly [number | null, number | null] {
    const { places } = this.chart;
    if (places.along === 'both') return [this.scaled('x', places.x[row]!), this.scaled('y', places.y[row]!)];
    const at = this.scaled(places.along, places.at[row]!);
    return places.along === 'x' ? [at, null] : [null, at];
  }

  private scaled(name: 'x' | 'y', value: number): number {
    return (this.view().scale(name) as (value: number) => number)(value);
  }

  private pointed(event: PointerEvent): void {
    const { margin, table, places } = this.chart;
    const frame = this.plot.getBoundingClientRect();
    const [px, py] = [event.clientX - frame.left - margin.left, event.clientY - frame.top - margin.top];
    const distance = (row: number): number => {
      const [x, y] = this.placeOf(row);
      const [dx, dy] = [x === null ? 0 : px - x, y === null ? 0 : py - y];
      // A step holds to its right.
      return places.along === 'x' && places.steps && dx < 0 ? Infinity : dx * dx + dy * dy;
    };
    let nearest = -1;
    let least = Infinity;
    for (let row = 0; row < table.rows.length; row++) {
      const far = distance(row);
      if (far < least) [nearest, least] = [row, far];
    }
    if (nearest >= 0) this.show(nearest);
    else this.hide();
  }

  private key(event: KeyboardEvent): void {
    const last = this.chart.table.rows.length - 1;
    const to: Readonly<Record<string, number>> = {
      ArrowRight: this.row + 1,
      ArrowDown: this.row + 1,
      ArrowLeft: this.row - 1,
      ArrowUp: this.row - 1,
      PageDown: this.row + PAGE,
      PageUp: this.row - PAGE,
      Home: 0,
      End: last,
    };
    if (event.key === 'Escape') return this.hide();
    const row = to[event.key];
    if (row === undefined) return;
    event.preventDefault();
    this.show(Math.min(last, Math.max(0, row)));
  }
}
