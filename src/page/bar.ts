/** The bar above what it governs: one door, one room, one stretch of time. */
import type { LiveChart } from '../report/charts/live.js';
import { decimal } from '../report/words.js';
import { button, element } from './elements.js';
import { followSpan, setSpan, span } from './span.js';

export function bar(charts: readonly LiveChart[]): void {
  const parts = [picker('door', 'Door'), picker('room', 'Room'), hours(charts)].filter((part) => part !== null);
  const first = document.querySelector('main > section [data-door], main > section [data-room], main > section .chart');
  const section = first?.closest('section');
  if (parts.length === 0 || !section) return;
  section.before(
    element(
      'div',
      { class: 'picks', attributes: { role: 'toolbar', 'aria-label': 'What the charts and tables show' } },
      parts,
    ),
  );
}

/** Shows what is about one door or room, and what is about none or all. */
function picker(what: 'door' | 'room', name: string): HTMLElement | null {
  const about = [...document.querySelectorAll<HTMLElement>(`[data-${what}]`)];
  const names = [...new Set(about.map((one) => one.dataset[what]!))];
  if (names.length < 2) return null;
  const all = `all ${names.length}`;
  const select = element(
    'select',
    { attributes: { 'aria-label': name } },
    [all, ...names].map((text) => element('option', { text })),
  );
  select.addEventListener('input', () => {
    const picked = select.selectedIndex === 0 ? null : names[select.selectedIndex - 1]!;
    for (const one of about) one.classList.toggle(`not-${what}`, picked !== null && one.dataset[what] !== picked);
  });
  return element('label', {}, [element('span', { text: name }), select]);
}

/** The stretch of time, in figures: what dragging over a chart does, for those who don't drag. */
function hours(charts: readonly LiveChart[]): HTMLElement | null {
  const ends = charts.flatMap(({ clock_h, places }) =>
    clock_h !== null && places.along === 'x' ? [Math.max(...places.at) * clock_h] : [],
  );
  if (ends.length === 0) return null;
  const end = Math.max(...ends);
  const field = (name: string): HTMLInputElement =>
    element('input', { attributes: { type: 'number', min: 0, max: end, step: 'any', 'aria-label': name } });
  const [from, to] = [field('From hour'), field('To hour')];
  const typed = (): void => {
    const both = [from.valueAsNumber || 0, Number.isNaN(to.valueAsNumber) ? end : to.valueAsNumber];
    const [low, high] = [Math.max(0, Math.min(...both)), Math.min(end, Math.max(...both))];
    // Nothing to see is the whole.
    setSpan(low < high ? [low, high] : null);
  };
  for (const input of [from, to]) input.addEventListener('change', typed);
  const whole = button('whole run', () => setSpan(null), { 'aria-label': 'Show the whole time again' });
  followSpan((now) => {
    const [low, high] = now ?? [0, end];
    from.value = decimal(low, 2);
    to.value = decimal(high, 2);
    whole.disabled = span() === null;
  });
  return element('div', { class: 'hours' }, [element('span', { text: 'Hours' }), from, '–', to, whole]);
}
