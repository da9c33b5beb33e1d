/** The doorway to scale, as seen walking forward: opening, jambs, beams at their heights, and who passes. */
import type { DesignBeam, DesignDoor } from '../../scenario/schema.js';
import type { Silhouette } from '../../score/figures.js';
import { html, type Markup } from '../html.js';
import { joined, metres, named } from '../words.js';
import { beamClass, picture, px } from './svg.js';

const LEFT = 62;
const RIGHT = 108;
const TOP = 26;
const BOTTOM = 40;
const JAMB = 16;
/** Pixels per metre for an ordinary door; a wide opening is drawn smaller to fit. */
const SCALE = 180;
const WIDEST = 250;

export function frontView(id: string, door: DesignDoor, people: readonly Silhouette[]): Markup {
  const scale = Math.min(SCALE, WIDEST / door.width_m);
  const tall = Math.max(door.height_m, ...door.beams.map((b) => Math.max(b.height_m, farHeight(b))));
  const size = { width: LEFT + door.width_m * scale + RIGHT, height: TOP + tall * scale + BOTTOM };
  const x = (m: number): number => LEFT + m * scale;
  const z = (m: number): number => TOP + (tall - m) * scale;
  const [x0, x1, floor, lintel] = [x(0), x(door.width_m), z(0), z(door.height_m)];
  const wood = html`<path class="wood" fill="url(#${id}-h)" d="M${px(x0 - JAMB)} ${px(floor)}V${px(lintel - JAMB)}H${px(x1 + JAMB)}V${px(floor)}H${px(x1)}V${px(lintel)}H${px(x0)}V${px(floor)}Z"/>`;
  const ground = html`<path class="ground" d="M${px(x0 - JAMB)} ${px(floor)}H${px(x1 + JAMB)}"/>`;
  return picture(
    id,
    size,
    `Door ${named(door.name)} to scale, seen walking forward`,
    describe(door, people),
    html`${ruler(x0 - JAMB - 8, z, tall)}${wood}${ground}${bodies(people, door.width_m, scale, x, z)}${beams(door.beams, x0, x1, z)}
<text class="note" x="${px((x0 + x1) / 2)}" y="${px(floor + 28)}" text-anchor="middle">opening ${metres(door.width_m)} × ${metres(door.height_m)}</text>`,
  );
}

/** Heights every half metre, ticks every tenth. */
function ruler(at: number, z: (m: number) => number, tall: number): Markup {
  const marks: Markup[] = [];
  for (let tenth = 0; tenth <= Math.floor(tall * 10 + 1e-9); tenth++) {
    const half = tenth % 5 === 0;
    const y = px(z(tenth / 10));
    marks.push(html`<path class="tick" d="M${px(at)} ${y}h${half ? -9 : -4}"/>`);
    if (half)
      marks.push(
        html`<text class="note" x="${px(at - 12)}" y="${px(z(tenth / 10) + 4)}" text-anchor="end">${(tenth / 10).toFixed(1)}</text>`,
      );
  }
  return html`<g><path class="tick" d="M${px(at)} ${px(z(0))}V${px(z(tall))}"/>${marks}<text class="note" x="${px(at - 12)}" y="14" text-anchor="end">m</text></g>`;
}

/** Bodies side by side where they fit, otherwise each behind the next; the shortest in front. */
function bodies(
  people: readonly Silhouette[],
  width: number,
  scale: number,
  x: (m: number) => number,
  z: (m: number) => number,
): Markup[] {
  const order = [...people].sort((a, b) => b.stature_m - a.stature_m).slice(0, 3);
  return order.map((s, i) => {
    const edges = s.capsules.flatMap((c) => [c.x0 - c.radius, c.x1 - c.radius, c.x0 + c.radius, c.x1 + c.radius]);
    const [least, most] = [Math.min(...edges), Math.max(...edges)];
    const half = (most - least) / 2;
    const place = order.length === 1 ? width / 2 : (width * (i + 0.75)) / (order.length + 0.5);
    const centre = half * 2 > width ? width / 2 : Math.min(Math.max(place, half + 0.01), width - half - 0.01);
    const shift = centre - (least + most) / 2;
    const line = (c: Silhouette['capsules'][number], extra: number): Markup =>
      // A capsule of no length still prints as a dot: round caps need a hair of line.
      html`<path d="M${px(x(c.x0 + shift))} ${px(z(c.z0))}L${px(x(c.x1 + shift) + 0.1)} ${px(z(c.z1))}" stroke-width="${px(2 * c.radius * scale + extra)}"/>`;
    return html`<g class="body body-${i}"><g class="rim">${s.capsules.map((c) => line(c, 2.5))}</g><g class="fill">${s.capsules.map((c) => line(c, 0))}</g></g>`;
  });
}

/** Beams at the same heights share a line and a label; close labels are moved apart. */
function beams(all: readonly DesignBeam[], x0: number, x1: number, z: (m: number) => number): Markup[] {
  const groups = new Map<string, { beam: DesignBeam; names: string[]; index: number }>();
  all.forEach((beam, index) => {
    const key = `${beam.height_m} ${farHeight(beam)} ${beam.mount}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { beam, names: [beam.name], index });
    else group.names.push(beam.name);
  });
  let lastLabel = Number.NEGATIVE_INFINITY;
  return [...groups.values()]
    .sort((a, b) => rightHeight(b.beam) - rightHeight(a.beam))
    .map(({ beam, names, index }) => {
      const [from, to] = beam.mount !== 'right-jamb' ? [x0, x1] : [x1, x0];
      const inward = beam.mount !== 'right-jamb' ? 1 : -1;
      const [z0, z1] = [z(beam.height_m), z(farHeight(beam))];
      const label = Math.max(z(rightHeight(beam)), lastLabel + 30);
      lastLabel = label;
      const height =
        beam.height_m === farHeight(beam)
          ? metres(beam.height_m)
          : `${metres(beam.height_m).replace('\u00a0m', '')} → ${metres(farHeight(beam))}`;
      // Beams behind one another: the first whole, the second dashed on top of it, so both show.
      const lines = names.map(
        (_, i) => html`<path class="${beamClass(index + i)}" d="M${px(from)} ${px(z0)}L${px(to)} ${px(z1)}"/>`,
      );
      return html`<g>${lines}<path class="emitter" d="M${px(from - inward * 11)} ${px(z0 - 6)}l${inward * 11} 6l${-inward * 11} 6z"/>
<path class="receiver" d="M${px(to)} ${px(z1 - 6)}v12"/>
<path class="tick" d="M${px(x1 + JAMB + 3)} ${px(z(rightHeight(beam)))}L${px(x1 + JAMB + 14)} ${px(label)}"/>
<text x="${px(x1 + JAMB + 18)}" y="${px(label - 1)}">${joined(names.map(named))}</text>
<text class="note" x="${px(x1 + JAMB + 18)}" y="${px(label + 13)}">${height}</text></g>`;
    });
}

const farHeight = (b: DesignBeam): number => b.far_height_m ?? b.height_m;
const rightHeight = (b: DesignBeam): number => (b.mount !== 'right-jamb' ? farHeight(b) : b.height_m);

function describe(door: DesignDoor, people: readonly Silhouette[]): string {
  const lines = door.beams.map((b) => `Beam ${named(b.name)} is ${metres(b.height_m)} above the floor.`);
  const bodies = people.map(
    (s) => `A person of ${metres(Math.round(s.stature_m * 100) / 100)} (${named(s.who)}) stands in it.`,
  );
  return `The opening is ${metres(door.width_m)} wide and ${metres(door.height_m)} high. ${[...lines, ...bodies].join(' ')}`;
}
