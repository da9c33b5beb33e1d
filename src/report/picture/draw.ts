/**
 * A wrong visit as a space–time picture: the way along the walk against time. Each part of a body at the height of the
 * beams is a band; where a band crosses a beam's line it breaks the beam. Beneath: what the controller saw, what state the
 * logic was in, and when it counted whom.
 */
import type { Band, Panel, Part, Picture } from '../../score/pictures.js';
import { beamClass, px } from '../drawing/svg.js';
import { html, type Markup } from '../html.js';
import { decimal, named, plain } from '../words.js';
import { bandPath } from './lines.js';

/** From the door plane, millimetres: what is shown of the walk. */
const FAR_MM = 650;
const PLOT = 190;
const LEFT = 58;
const RIGHT = 12;
const STRIP = 20;
const GAP = 26;

/** Where things are, pixels. */
interface Layout {
  readonly width: number;
  /** Of milliseconds. */
  readonly x: (ms: number) => number;
}

/** What is drawn, and how high it is. @param width pixels */
export function pictureContent(picture: Picture, width: number): { readonly content: Markup; readonly height: number } {
  const x = (ms: number): number => LEFT + (ms / picture.span_ms) * (width - LEFT - RIGHT);
  const layout: Layout = { width, x };
  const panels = picture.panels.map((panel, p) => panelOf(picture, panel, p, layout, 16 + p * (PLOT + GAP)));
  const below = 16 + picture.panels.length * (PLOT + GAP);
  const strips = [
    ...picture.beams.map((_, b) => beamStrip(picture, b, layout, below + b * STRIP)),
    stateStrip(picture, layout, below + picture.beams.length * STRIP),
    tallyStrip(picture, layout, below + (picture.beams.length + 1) * STRIP + 4),
  ];
  const axis = below + (picture.beams.length + 2) * STRIP + 14;
  return { content: html`${panels}${strips}${timeAxis(picture, layout, axis)}`, height: axis + 34 };
}

/** @param labels ids of the elements of the page that say what it shows @param width of the drawing, pixels */
export function drawPicture(picture: Picture, labels: string, width: number): Markup {
  const { content, height } = pictureContent(picture, width);
  return html`<svg class="drawing picture" viewBox="0 0 ${px(width)} ${px(height)}" role="img" aria-labelledby="${labels}">${content}</svg>`;
}

/** 'Door front, replicate 3, visit 192'. */
export function pictureTitle({ door, replicate, number }: Picture): string {
  return `Door ${plain(door)}, replicate ${replicate}, visit ${number}`;
}

function panelOf(picture: Picture, panel: Panel, p: number, { x, width }: Layout, top: number): Markup {
  const middle = top + PLOT / 2;
  const y = (mm: number): number => middle - (Math.max(-FAR_MM, Math.min(FAR_MM, mm)) / FAR_MM) * (PLOT / 2);
  const at = (n: number): number => x(n * picture.step_ms);
  const ticks = [-0.5, 0, 0.5];
  const seen = (picture.bodies[0]?.bands[p] ?? []).length > 0;
  // The visit it is about lies on top.
  const bodies = picture.bodies.map((body, i) => ({ body, i })).reverse();
  return html`<g><text class="note" x="${px(LEFT)}" y="${px(top - 4)}">at ${decimal(panel.height_m, 2)} m above the floor; forward is up</text>
<rect class="plot" x="${px(LEFT)}" y="${px(top)}" width="${px(width - LEFT - RIGHT)}" height="${px(PLOT)}"/>
${ticks.map((m) => html`<path class="${m === 0 ? 'plane' : 'grid'}" d="M${px(LEFT)} ${px(y(m * 1000))}H${px(width - RIGHT)}"/><text class="note" x="${px(LEFT - 6)}" y="${px(y(m * 1000) + 4)}" text-anchor="end">${m === 0 ? 'door' : `${m > 0 ? '+' : '\u2212'}${decimal(Math.abs(m), 1)} m`}</text>`)}
${bodies.map(({ body, i }) => html`<g class="${i === 0 ? 'who' : 'other'}">${(body.bands[p] ?? []).flatMap(trimmed).map((band) => html`<path class="band ${groupOf(band.part)}" d="${bandPath(band, at, y)}"/>`)}</g>`)}
${panel.beams.map((b) => beamLine(picture, b, x, y, width))}
${labels(picture, p, at, y)}${!seen && html`<text class="note" x="${px(LEFT + 10)}" y="${px(middle - 24)}">no part of this body is at this height</text>`}</g>`;
}

/** From the first instant that is on the picture to the last; none if it never is. */
function trimmed({ part, from, low_mm, high_mm }: Band): Band[] {
  const shown = low_mm.map((low, i) => low < FAR_MM && high_mm[i]! > -FAR_MM);
  const [first, last] = [shown.indexOf(true), shown.lastIndexOf(true)];
  if (first < 0) return [];
  return [{ part, from: from + first, low_mm: low_mm.slice(first, last + 1), high_mm: high_mm.slice(first, last + 1) }];
}

/** Parts that are drawn alike. */
function groupOf(part: Part): 'trunk' | 'arm' | 'leg' | 'load' {
  if (part === 'arm') return 'arm';
  if (part === 'thigh' || part === 'shank' || part === 'foot') return 'leg';
  return part === 'load' || part === 'tail' ? 'load' : 'trunk';
}

/** The beam, thick where the controller saw it broken, with its readings. */
function beamLine(picture: Picture, b: number, x: Layout['x'], y: (mm: number) => number, width: number): Markup {
  const beam = picture.beams[b]!;
  const line = y(beam.at_mm);
  const dots = beam.readings_ms.map(
    (ms, i) =>
      html`<circle class="${beam.near[i] === 1 ? 'near' : 'far'} read-${b % 4}" cx="${px(x(ms))}" cy="${px(line)}" r="2.6"/>`,
  );
  return html`<path class="${beamClass(b)}" d="M${px(LEFT)} ${px(line)}H${px(width - RIGHT)}"/>${broken(picture, b).map(([from, to]) => html`<path class="seen read-${b % 4}" d="M${px(x(from))} ${px(line)}H${px(x(to))}"/>`)}${dots}
<text x="${px(width - RIGHT - 4)}" y="${px(lowest(picture, b) ? line + 14 : line - 5)}" text-anchor="end">${named(beam.name)}</text>`;
}

/** Whether a beam is met before every other, so that its name stands beneath its line, clear of theirs. */
function lowest({ beams }: Picture, b: number): boolean {
  const at = beams[b]!.at_mm;
  return beams.some((other) => other.at_mm > at) && beams.every((other, i) => i === b || other.at_mm > at);
}

/** When the controller saw a beam broken: [from, to] in milliseconds. */
function broken({ beams, span_ms }: Picture, b: number): (readonly [number, number])[] {
  const { level, changes_ms } = beams[b]!;
  const spans: [number, number][] = [];
  let since = level === 1 ? 0 : null;
  for (const ms of changes_ms) {
    if (since === null) since = ms;
    else {
      spans.push([since, ms]);
      since = null;
    }
  }
  if (since !== null) spans.push([since, span_ms]);
  return spans;
}

/** The name of each part, once, where its band is widest; of others, who they are. */
function labels(picture: Picture, p: number, at: (n: number) => number, y: (mm: number) => number): Markup[] {
  const placed: { x: number; y: number }[] = [];
  const free = (x0: number, y0: number): boolean =>
    placed.every((other) => Math.abs(other.x - x0) > 46 || Math.abs(other.y - y0) > 13);
  return picture.bodies.flatMap((body, i) => {
    const best = new Map<string, { size: number; x: number; y: number }>();
    for (const band of body.bands[p] ?? []) {
      const name = i === 0 ? band.part : 'other';
      band.low_mm.forEach((low, k) => {
        const high = band.high_mm[k]!;
        const centre = (low + high) / 2;
        if (Math.abs(centre) > FAR_MM - 180) return;
        const size = high - low;
        const known = best.get(name);
        if (!known || size > known.size) best.set(name, { size, x: at(band.from + k), y: y(centre) });
      });
    }
    return [...best].flatMap(([name, place]) => {
      if (!free(place.x, place.y)) return [];
      placed.push(place);
      return [html`<text class="part" x="${px(place.x)}" y="${px(place.y + 4)}" text-anchor="middle">${name}</text>`];
    });
  });
}

function beamStrip(picture: Picture, b: number, { x, width }: Layout, top: number): Markup {
  const { name } = picture.beams[b]!;
  const bars = broken(picture, b).map(([from, to]) => box(x(from), top + 3, Math.max(1, x(to) - x(from)), STRIP - 8));
  return html`<g><text x="${px(LEFT - 6)}" y="${px(top + STRIP - 6)}" text-anchor="end">${named(name)}</text><path class="grid" d="M${px(LEFT)} ${px(top + STRIP - 5)}H${px(width - RIGHT)}"/>${bars.length > 0 && html`<path class="bar bar-${b % 4}" d="${bars.join('')}"/>`}</g>`;
}

/** A rectangle as part of a path. */
const box = (x: number, y: number, width: number, height: number): string =>
  `M${px(x)} ${px(y)}h${px(width)}v${px(height)}h${px(-width)}z`;

/** A letter's width, roughly, pixels. */
const LETTER = 6.6;

function stateStrip(picture: Picture, { x, width }: Layout, top: number): Markup {
  const { states, span_ms } = picture;
  const spans = states.map(({ from_ms, label }, i) => {
    const left = x(from_ms);
    return { left, wide: x(states[i + 1]?.from_ms ?? span_ms) - left, text: plain(label) };
  });
  // Every other state is shaded.
  const boxes = [0, 1].map((shade) => {
    const those = spans.filter((_, i) => i % 2 === shade);
    const d = those.map(({ left, wide }) => box(left, top + 1, Math.max(0.5, wide), STRIP - 3)).join('');
    return d !== '' && html`<path class="state state-${shade}" d="${d}"/>`;
  });
  const names = spans
    .filter(({ wide, text }) => text.length * LETTER < wide - 4)
    .map(({ left, text }) => html`<text class="in" x="${px(left + 4)}" y="${px(top + STRIP - 7)}">${text}</text>`);
  return html`<g><text class="note" x="${px(LEFT - 6)}" y="${px(top + STRIP - 6)}" text-anchor="end">state</text>${boxes}${names}<path class="grid" d="M${px(width - RIGHT)} ${px(top)}V${px(top + STRIP)}"/></g>`;
}

/** Width of a direction's name and its mark, pixels. */
const WORD = 84;

function tallyStrip(picture: Picture, { x, width }: Layout, top: number): Markup {
  const places = picture.tallies.map(({ at_ms }) => x(at_ms));
  const marks = picture.tallies.map(({ at_ms, direction }, i) => {
    const up = direction === 'forward';
    const at = x(at_ms);
    const [tip, foot] = up ? [top, top + 14] : [top + 14, top];
    // The word stands after its mark, or before it where the edge or the next mark is near.
    const crowded = (places[i + 1] ?? Infinity) - at < WORD && at - (places[i - 1] ?? LEFT) > WORD;
    const right = at > width - WORD || crowded;
    return html`<path class="tally" d="M${px(at)} ${px(foot)}V${px(tip)}M${px(at - 4)} ${px(tip + (up ? 5 : -5))}L${px(at)} ${px(tip)}L${px(at + 4)} ${px(tip + (up ? 5 : -5))}"/><text class="tallied" x="${px(at + (right ? -8 : 8))}" y="${px(top + 12)}" text-anchor="${right ? 'end' : 'start'}">${direction}</text>`;
  });
  const none =
    picture.tallies.length === 0 &&
    html`<text class="note" x="${px(LEFT + 4)}" y="${px(top + 12)}">nothing was counted</text>`;
  return html`<g><text class="note" x="${px(LEFT - 6)}" y="${px(top + 12)}" text-anchor="end">count</text>${marks}${none}</g>`;
}

function timeAxis({ span_ms }: Picture, { x, width }: Layout, top: number): Markup {
  const every = [100, 200, 500, 1000, 2000, 5000, 10_000].find((ms) => x(ms) - x(0) > 44) ?? 20_000;
  const ticks = Array.from({ length: Math.floor(span_ms / every) + 1 }, (_, i) => i * every);
  return html`<g><path class="tick" d="M${px(LEFT)} ${px(top)}H${px(width - RIGHT)}"/>${ticks.map((ms) => html`<path class="tick" d="M${px(x(ms))} ${px(top)}v4"/><text class="note" x="${px(x(ms))}" y="${px(top + 16)}" text-anchor="middle">${decimal(ms / 1000, 1)}</text>`)}<text class="note" x="${px((LEFT + width) / 2)}" y="${px(top + 31)}" text-anchor="middle">seconds</text></g>`;
}
