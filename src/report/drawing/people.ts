/** Who passes, as outlines to scale: drawn once for the page, and set into every doorway. */
import type { Figures, Silhouette } from '../../score/figures.js';
import { html, type Markup } from '../html.js';

/** Units of a drawn outline per metre: enough for tenths of a millimetre on the page. */
const UNITS = 200;
/** The light line around each part, metres. */
const RIM_M = 0.014;

/** A grown-up, a child and an animal, as far as the run has them; of other walkers the first two. */
export function peopleDrawn({ silhouettes }: Pick<Figures, 'silhouettes'>): Silhouette[] {
  const sorts = (['adult', 'child', 'pet'] as const).map((sort) =>
    silhouettes.find(({ is, who }) => is === sort || (is === undefined && who === sort)),
  );
  const found = sorts.filter((one) => one !== undefined);
  return found.length > 0 ? found : silhouettes.slice(0, 2);
}

const idOf = (i: number): string => `who-${i}`;
const units = (m: number): string => String(Math.round(m * UNITS));

/** Outlines to refer to, feet at the origin; a picture of no size. @param people as {@link peopleDrawn} gives them */
export function peopleDefs(people: readonly Silhouette[]): Markup | null {
  if (people.length === 0) return null;
  const stroke = (c: Silhouette['capsules'][number], more: number): Markup =>
    // A capsule of no length still prints as a dot: round caps need a hair of line.
    html`<path d="M${units(c.x0)} ${units(-c.z0)}L${Math.round(c.x1 * UNITS) + 0.1} ${units(-c.z1)}" stroke-width="${units(2 * c.radius + more)}"/>`;
  return html`<svg class="defs" aria-hidden="true" focusable="false"><defs>${people.map(
    ({ capsules }, i) =>
      html`<g id="${idOf(i)}" stroke-linecap="round"><g class="rim">${capsules.map((c) => stroke(c, RIM_M))}</g>${capsules.map((c) => stroke(c, 0))}</g>`,
  )}</defs></svg>`;
}

/** Side by side where they fit, otherwise each behind the next; the shortest in front. */
export function standing(
  people: readonly Silhouette[],
  width_m: number,
  scale: number,
  x: (m: number) => number,
  z: (m: number) => number,
): Markup[] {
  const order = people.map((one, i) => ({ one, i })).sort((a, b) => b.one.stature_m - a.one.stature_m);
  return order.map(({ one, i }, rank) => {
    const edges = one.capsules.flatMap((c) => [c.x0 - c.radius, c.x1 - c.radius, c.x0 + c.radius, c.x1 + c.radius]);
    const [least, most] = [Math.min(...edges), Math.max(...edges)];
    const half = (most - least) / 2;
    const place = order.length === 1 ? width_m / 2 : (width_m * (rank + 0.75)) / (order.length + 0.5);
    const centre = 2 * half > width_m ? width_m / 2 : Math.min(Math.max(place, half + 0.01), width_m - half - 0.01);
    const shift = centre - (least + most) / 2;
    const times = Math.round((scale / UNITS) * 1e4) / 1e4;
    return html`<use class="body body-${rank}" href="#${idOf(i)}" transform="translate(${Math.round(x(shift) * 10) / 10} ${Math.round(z(0) * 10) / 10}) scale(${times})"/>`;
  });
}
