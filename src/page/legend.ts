/** Series of a chart, each a button that leaves it out or brings it back. */
import type { LiveChart, Series } from '../report/charts/live.js';
import { button, element } from './elements.js';

const SVG = 'http://www.w3.org/2000/svg';

/** @param toggled told of each change; null where there is nothing to choose from */
export function legend({ series }: LiveChart, toggled: (series: number, shown: boolean) => void): HTMLElement | null {
  if (series.length < 2) return null;
  const items = series.map(({ name }, i) => {
    const choice = button(
      name,
      () => {
        const shown = choice.getAttribute('aria-pressed') !== 'true';
        choice.setAttribute('aria-pressed', String(shown));
        toggled(i, shown);
      },
      { 'aria-pressed': 'true' },
    );
    choice.prepend(swatch(series[i]!));
    return element('li', {}, [choice]);
  });
  return element('ul', { class: 'legend', attributes: { 'aria-label': 'Shown in the picture' } }, items);
}

function swatch({ color, strokeDash = [], opacity }: Series): Element {
  const drawn = drawing('svg', { viewBox: '0 0 26 12', 'aria-hidden': 'true' });
  const stroke = { stroke: color, 'stroke-dasharray': strokeDash.join(' ') };
  drawn.append(
    opacity === undefined
      ? drawing('path', { d: 'M1 6H25', fill: 'none', 'stroke-width': '3', ...stroke })
      : drawing('rect', {
          x: '1',
          y: '1',
          width: '24',
          height: '10',
          fill: color,
          'fill-opacity': String(opacity),
          ...stroke,
        }),
  );
  return drawn;
}

function drawing(name: string, looks: Readonly<Record<string, string>>): Element {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(looks)) made.setAttribute(key, value);
  return made;
}
