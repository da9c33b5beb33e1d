/** Brings a report to life: charts as they come into view, the bar that picks doors, rooms and hours, what can be asked. */
import type { LivePage } from '../report/alive/live-page.js';
import { letAsk } from './ask.js';
import { bar } from './bar.js';
import { bringToLife } from './live-figure.js';
import { unpacked } from './unpack.js';

async function start(): Promise<void> {
  const { charts, ask } = JSON.parse(await unpacked('packed-data')) as LivePage;
  const waiting = new Map<Element, () => Promise<void>>();
  const seen = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) {
        const wake = waiting.get(target);
        if (!isIntersecting || wake === undefined) continue;
        waiting.delete(target);
        seen.unobserve(target);
        void wake();
      }
    },
    // Before it is scrolled to.
    { rootMargin: '300px' },
  );
  for (const chart of charts) {
    const figure = document.getElementById(chart.id);
    if (figure === null) continue;
    waiting.set(figure, () => bringToLife(figure, chart));
    seen.observe(figure);
  }
  bar(charts);
  const section = document.getElementById('ask')?.closest('section') ?? null;
  if (section !== null && ask !== null) await letAsk(section, ask);
}

void start();
