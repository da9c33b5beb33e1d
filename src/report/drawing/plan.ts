/** The doorway from above, to a larger scale: the depth of the frame, where each beam runs, and how far apart. */
import type { DesignDoor } from '../../scenario/schema.js';
import { html, type Markup } from '../html.js';
import { decimal, metres, named } from '../words.js';
import { beamClass, picture, px } from './svg.js';

const LEFT = 30;
const RIGHT = 80;
const WIDEST = 250;
/** Pixels per metre at most. */
const SCALE = 400;
const JAMB = 22;

export function planView(id: string, door: DesignDoor): Markup {
  const scale = Math.min(SCALE, WIDEST / door.width_m);
  const places = door.beams.flatMap((b) => [b.at_m, b.far_at_m ?? b.at_m]);
  const half = door.jamb_depth_m / 2;
  const [back, front] = [Math.min(-half, ...places) - 0.06, Math.max(half, ...places) + 0.06];
  const size = { width: LEFT + door.width_m * scale + RIGHT, height: (front - back) * scale + 62 };
  const x = (m: number): number => LEFT + m * scale;
  // Forward is up.
  const y = (m: number): number => 20 + (front - m) * scale;
  const [x0, x1] = [x(0), x(door.width_m)];
  const jamb = (left: number): Markup =>
    html`<rect class="wood" fill="url(#${id}-h)" x="${px(left)}" y="${px(y(half))}" width="${JAMB}" height="${px(2 * half * scale)}"/>`;
  let lastLabel = Number.NEGATIVE_INFINITY;
  const lines = door.beams
    .map((b, i) => ({ b, i, right: b.mount !== 'right-jamb' ? (b.far_at_m ?? b.at_m) : b.at_m }))
    .sort((p, q) => q.right - p.right)
    .map(({ b, i, right }) => {
      const [from, to] = b.mount !== 'right-jamb' ? [x0, x1] : [x1, x0];
      const label = Math.max(y(right) + 4, lastLabel + 15);
      lastLabel = label;
      return html`<g><path class="${beamClass(i)}" d="M${px(from)} ${px(y(b.at_m))}L${px(to)} ${px(y(b.far_at_m ?? b.at_m))}"/>
<circle class="emitter" cx="${px(from)}" cy="${px(y(b.at_m))}" r="4"/><path class="receiver" d="M${px(to)} ${px(y(b.far_at_m ?? b.at_m) - 5)}v10"/>
<text x="${px(x1 + JAMB + 8)}" y="${px(label)}">${named(b.name)}</text></g>`;
    });
  const middle = x0 + (x1 - x0) * 0.5;
  const plane = html`<path class="plane" d="M${px(x0)} ${px(y(0))}H${px(x1)}"/>`;
  const forward = html`<path class="arrow" d="M${px(middle)} ${px(y(back) + 2)}V${px(y(front) - 2)}m-5 8l5 -8l5 8"/>
<text class="note" x="${px(middle)}" y="12" text-anchor="middle">forward, to ${named(door.to)}</text>
<text class="note" x="${px(middle)}" y="${px(y(back) + 18)}" text-anchor="middle">from ${named(door.from)}</text>`;
  const bar = html`<path class="tick" d="M${px(x0)} ${px(size.height - 8)}v-6m0 3h${px(scale * 0.1)}m0 -3v6"/>
<text class="note" x="${px(x0 + scale * 0.1 + 6)}" y="${px(size.height - 6)}">0.1 m</text>`;
  return picture(
    id,
    size,
    `Door ${named(door.name)} from above`,
    `The frame is ${metres(door.jamb_depth_m)} deep. ${spacingWords(door)}`,
    html`${jamb(x0 - JAMB)}${jamb(x1)}${plane}${forward}${lines}${bar}`,
  );
}

/** 'A and B are 0.08 m apart along the walk.' for each beam and the next. */
export function spacingWords(door: DesignDoor): string {
  const ordered = [...door.beams].sort((a, b) => a.at_m - b.at_m);
  return ordered
    .slice(1)
    .map((b, i) => {
      const a = ordered[i];
      if (a === undefined) return '';
      return `${named(a.name)} and ${named(b.name)} are ${decimal(Math.round((b.at_m - a.at_m) * 1e6) / 1e6)}\u00a0m apart along the walk.`;
    })
    .join(' ');
}
