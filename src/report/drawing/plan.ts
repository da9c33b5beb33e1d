/** The doorway from above, to a larger scale: the depth of the frame, where each beam runs, and how far apart. */
import type { Design, DesignDoor } from '../../scenario/schema.js';
import { isRanger } from '../../sensors/mounted.js';
import { mountedBeams } from '../../simulate/plan.js';
import { html, type Markup } from '../html.js';
import { beamSentence } from '../sensor-words.js';
import { decimal, metres, named } from '../words.js';
import { drawnBeams, rangerMark, strokes, wedge, type DrawnBeam, type Place } from './drawn-beam.js';
import { labelWidth, spread } from './labels.js';
import { outline, sightOf, type Box } from './sight.js';
import { picture, px } from './svg.js';

const JAMB = 22;
const EDGE = 8;
const WIDEST = 250;
/** Width of the whole drawing where the opening leaves the choice. */
const WHOLE = 400;
const NARROWEST = 140;
/** Pixels per metre at most. */
const SCALE = 400;
const ROW = 15;
/** Beyond the frame and the outermost beam. */
const MARGIN_M = 0.06;
/** What rangers look into is drawn so far from the door plane at most. */
const FURTHEST_M = 0.75;

export function planView(id: string, door: DesignDoor, design: Design): Markup {
  const half = door.jamb_depth_m / 2;
  const [back, front] = depthOf(door, design);
  const tall = Math.max(door.height_m, ...door.beams.map((b) => b.height_m));
  const box: Box = { low: { x: 0, y: back, z: 0 }, high: { x: door.width_m, y: front, z: tall } };
  const all = drawnBeams(design, door, box, 'above');
  const [left, right, inside] = (['left', 'right', 'inside'] as const).map((side) =>
    all.filter((b) => sideOf(b) === side),
  ) as [DrawnBeam[], DrawnBeam[], DrawnBeam[]];
  const width = (those: DrawnBeam[]): number =>
    those.length === 0 ? 0 : EDGE + Math.max(...those.map((b) => labelWidth(b.label)));
  const [LEFT, RIGHT] = [EDGE + JAMB + width(left), JAMB + EDGE + Math.max(width(right), 30)];
  const room = Math.max(NARROWEST, Math.min(WIDEST, WHOLE - LEFT - RIGHT));
  const scale = Math.min(SCALE, room / door.width_m);
  const x = (m: number): number => LEFT + m * scale;
  // Forward is up.
  const y = (m: number): number => 20 + (front - m) * scale;
  const place: Place = (p) => [x(p.x), y(p.y)];
  const [x0, x1] = [x(0), x(door.width_m)];
  const rows = Math.max(left.length, right.length, inside.length) * ROW;
  const size = { width: x1 + RIGHT, height: Math.max((front - back) * scale, rows) + 62 };
  const jamb = (at: number): Markup =>
    html`<rect class="wood" fill="url(#${id}-h)" x="${px(at)}" y="${px(y(half))}" width="${JAMB}" height="${px(2 * half * scale)}"/>`;
  const [middle, arrow] = [x0 + (x1 - x0) * 0.5, x0 + (x1 - x0) * arrowShare(door, inside)];
  const plane = html`<path class="plane" d="M${px(x0)} ${px(y(0))}H${px(x1)}"/>`;
  const forward = html`<path class="arrow" d="M${px(arrow)} ${px(y(back) + 2)}V${px(y(front) - 2)}m-5 8l5 -8l5 8"/>
<text class="note" x="${px(middle)}" y="12" text-anchor="middle">forward, to ${named(door.to)}</text>
<text class="note" x="${px(middle)}" y="${px(y(back) + 18)}" text-anchor="middle">from ${named(door.from)}</text>`;
  const bar = html`<path class="tick" d="M${px(x0)} ${px(size.height - 8)}v-6m0 3h${px(scale * 0.1)}m0 -3v6"/>
<text class="note" x="${px(x0 + scale * 0.1 + 6)}" y="${px(size.height - 6)}">0.1 m</text>`;
  const labels = html`${column(left, x0 - JAMB - EDGE, 'end', y, y(back))}${column(right, x1 + JAMB + EDGE, 'start', y, y(back))}${column(inside, x, 'start', y, y(back))}`;
  return picture(
    id,
    size,
    `Door ${named(door.name)} from above`,
    describe(door, design),
    html`${jamb(x0 - JAMB)}${jamb(x1)}${plane}${all.map((b) => wedge(b, box, 'above', place))}${forward}${all.map((b) => html`<g>${strokes(b, place)}${b.sight ? rangerMark(b, place) : barrierMarks(b, place)}</g>`)}${labels}${bar}`,
  );
}

/** Backmost and foremost place that is drawn: the frame, every beam, and of rangers what they look into. */
function depthOf(door: DesignDoor, design: Design): [number, number] {
  const half = door.jamb_depth_m / 2;
  const places = [-half, half];
  for (const { line, sensor } of mountedBeams(design, door)) {
    const sight = sightOf(sensor, design.surroundings.temperature_c);
    if (!sight) places.push(line.from.y, line.to.y);
    else {
      const tall = Math.max(door.height_m, line.from.z);
      const [low, high] = [Math.min(-FURTHEST_M, line.from.y), Math.max(FURTHEST_M, line.from.y)];
      const box: Box = { low: { x: 0, y: low, z: 0 }, high: { x: door.width_m, y: high, z: tall } };
      places.push(...outline(line, sight, box, 'above').map(([, along]) => along));
    }
  }
  return [Math.min(...places) - MARGIN_M, Math.max(...places) + MARGIN_M];
}

/** A barrier is labelled where it ends at the right jamb, a ranger where it sits. */
function sideOf({ mounted, sight }: DrawnBeam): 'left' | 'right' | 'inside' {
  if (sight === null || mounted.mount === 'right-jamb') return 'right';
  return mounted.mount === 'lintel' ? 'inside' : 'left';
}

/** Labels under one another: at one place beside a jamb, or each beside its sensor under the lintel, off its axis. */
function column(
  those: readonly DrawnBeam[],
  at: number | ((m: number) => number),
  anchor: 'start' | 'end',
  y: (m: number) => number,
  lowest: number,
): Markup[] {
  const along = ({ mounted, line, sight }: DrawnBeam): number =>
    sight !== null || mounted.mount === 'right-jamb' ? line.from.y : line.to.y;
  const sorted = [...those].sort((a, b) => along(b) - along(a));
  const wanted = sorted.map((b) => y(along(b)) + 4);
  const places = spread(wanted, ROW, lowest);
  return sorted.map((b, i) => {
    const rightward = b.line.to.x > b.line.from.x + 1e-9;
    const x = typeof at === 'number' ? at : at(b.line.from.x) + (rightward ? -11 : 11);
    return html`<text x="${px(x)}" y="${px(places[i] ?? 0)}" text-anchor="${typeof at !== 'number' && rightward ? 'end' : anchor}">${named(b.label)}</text>`;
  });
}

/** Where across the opening the arrow runs: in the middle, or as far as can be from sensors under the lintel. */
function arrowShare(door: DesignDoor, inside: readonly DrawnBeam[]): number {
  const taken = inside.map((b) => b.line.from.x / door.width_m);
  const room = (share: number): number => Math.min(...taken.map((t) => Math.abs(t - share)), 1);
  return [0.5, 0.25, 0.75, 0.1].reduce((best, share) => (room(share) > room(best) ? share : best));
}

function barrierMarks({ line }: DrawnBeam, place: Place): Markup {
  const [[from, y0], [to, y1]] = [place(line.from), place(line.to)];
  return html`<circle class="emitter" cx="${px(from)}" cy="${px(y0)}" r="4"/><path class="receiver" d="M${px(to)} ${px(y1 - 5)}v10"/>`;
}

function describe(door: DesignDoor, design: Design): string {
  const rangers = mountedBeams(design, door).filter(isRanger);
  const sentences = rangers.flatMap(({ index, sensor }) => {
    const beam = door.beams[index];
    return beam ? beamSentence(beam, sensor.kind) : [];
  });
  return [`The frame is ${metres(door.jamb_depth_m)} deep.`, spacingWords(door), ...sentences]
    .filter((s) => s !== '')
    .join(' ');
}

/** 'A and B are 0.08 m apart along the walk.' for each beam and the next. */
export function spacingWords(door: DesignDoor): string {
  const ordered = [...door.beams].sort((a, b) => a.at_m - b.at_m);
  return ordered
    .slice(1)
    .map((b, i) => {
      const a = ordered[i];
      if (a === undefined) return '';
      if (a.at_m === b.at_m) return `${named(a.name)} and ${named(b.name)} are at one place along the walk.`;
      return `${named(a.name)} and ${named(b.name)} are ${decimal(Math.round((b.at_m - a.at_m) * 1e6) / 1e6)}\u00a0m apart along the walk.`;
    })
    .join(' ');
}
