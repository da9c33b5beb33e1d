/** The doorway to scale, as seen walking forward: opening, jambs, beams at their heights, and who passes. */
import type { Design, DesignDoor } from '../../scenario/schema.js';
import { sensorNamed } from '../../scenario/sensor-named.js';
import type { Silhouette } from '../../score/figures.js';
import { html, type Markup } from '../html.js';
import { beamSentence } from '../sensor-words.js';
import { metres, named } from '../words.js';
import { drawnBeams, rangerMark, strokes, wedge, type DrawnBeam, type Place } from './drawn-beam.js';
import { labelWidth, spread } from './labels.js';
import { standing } from './people.js';
import type { Box } from './sight.js';
import { picture, px } from './svg.js';

const RULER = 62;
const TOP = 26;
const BOTTOM = 40;
const JAMB = 16;
/** Between the wood and a label, bridged by a thin line. */
const LEADER = 18;
/** A name and the note beneath it. */
const ROW = 30;
/** One line over the lintel. */
const LINE = 17;
/** Pixels per metre for an ordinary door; a wide opening is drawn smaller to fit. */
const SCALE = 180;
const WIDEST = 250;
/** Width of the whole drawing where the opening leaves the choice; letters stay readable on a phone. */
const WHOLE = 430;
const NARROWEST = 140;

export function frontView(id: string, door: DesignDoor, people: readonly Silhouette[], design: Design): Markup {
  const tall = Math.max(door.height_m, ...door.beams.map((b) => Math.max(b.height_m, b.far_height_m ?? 0)));
  // Along the line of sight everything is drawn, however far.
  const box: Box = { low: { x: 0, y: -20, z: 0 }, high: { x: door.width_m, y: 20, z: tall } };
  const all = drawnBeams(design, door, box, 'front');
  const [left, right, above] = (['left', 'right', 'above'] as const).map((side) =>
    all.filter((b) => sideOf(b) === side),
  ) as [DrawnBeam[], DrawnBeam[], DrawnBeam[]];
  const width = (those: DrawnBeam[]): number =>
    those.length === 0 ? 0 : LEADER + Math.max(...those.map((b) => labelWidth(b.label, noteOf(b))));
  const [LEFT, RIGHT] = [RULER + width(left), JAMB + 14 + Math.max(width(right), 34)];
  const room = Math.max(NARROWEST, Math.min(WIDEST, WHOLE - LEFT - RIGHT));
  const scale = Math.min(SCALE, room / door.width_m);
  const top = TOP + (above.length > 0 ? 8 + above.length * LINE : 0);
  const x = (m: number): number => LEFT + m * scale;
  const z = (m: number): number => top + (tall - m) * scale;
  const place: Place = (p) => [x(p.x), z(p.z)];
  const [x0, x1, floor, lintel] = [x(0), x(door.width_m), z(0), z(door.height_m)];
  const sides = html`${beside(left, x0 - JAMB, -1, z)}${beside(right, x1 + JAMB, 1, z)}${over(above, lintel - JAMB, x, z)}`;
  const rows = Math.max(left.length, right.length) * ROW;
  const size = { width: x1 + RIGHT, height: Math.max(floor + BOTTOM, top + rows) };
  const wood = html`<path class="wood" fill="url(#${id}-h)" d="M${px(x0 - JAMB)} ${px(floor)}V${px(lintel - JAMB)}H${px(x1 + JAMB)}V${px(floor)}H${px(x1)}V${px(lintel)}H${px(x0)}V${px(floor)}Z"/>`;
  const ground = html`<path class="ground" d="M${px(x0 - JAMB)} ${px(floor)}H${px(x1 + JAMB)}"/>`;
  return picture(
    id,
    size,
    `Door ${named(door.name)} to scale, seen walking forward`,
    describe(door, people, design),
    html`${ruler(x0 - JAMB - 8 - width(left), z, tall)}${wood}${ground}${standing(people, door.width_m, scale, x, z)}${all.map((b) => wedge(b, box, 'front', place))}${all.map((b) => html`<g>${strokes(b, place)}${b.sight ? rangerMark(b, place) : barrierMarks(b, place)}</g>`)}${sides}
<text class="note" x="${px((x0 + x1) / 2)}" y="${px(floor + 28)}" text-anchor="middle">opening ${metres(door.width_m)} × ${metres(door.height_m)}</text>`,
  );
}

/** Heights every half metre, ticks every tenth. */
function ruler(at: number, z: (m: number) => number, tall: number): Markup {
  const tenths = Array.from({ length: Math.floor(tall * 10 + 1e-9) + 1 }, (_, i) => i);
  const ticks = tenths.map((i) => `M${px(at)} ${px(z(i / 10))}h${i % 5 === 0 ? -9 : -4}`).join('');
  const halves = tenths
    .filter((i) => i % 5 === 0)
    .map((i) => html`<text class="note" x="${px(at - 12)}" y="${px(z(i / 10) + 4)}">${(i / 10).toFixed(1)}</text>`);
  return html`<g text-anchor="end"><path class="tick" d="M${px(at)} ${px(z(0))}V${px(z(tall))}${ticks}"/>${halves}<text class="note" x="${px(at - 12)}" y="${px(z(tall) - 12)}">m</text></g>`;
}

/** A barrier is labelled where it ends at the right jamb, a ranger where it sits. */
function sideOf({ mounted, sight }: DrawnBeam): 'left' | 'right' | 'above' {
  if (sight === null || mounted.mount === 'right-jamb') return 'right';
  return mounted.mount === 'lintel' ? 'above' : 'left';
}

/** The height at the labelled end. */
function labelledHeight({ mounted, line, sight }: DrawnBeam): number {
  return sight !== null || mounted.mount === 'right-jamb' ? line.from.z : line.to.z;
}

function noteOf({ line, sight }: DrawnBeam): string {
  const [from, to] = [line.from.z, line.to.z];
  return sight !== null || from === to ? metres(from) : `${metres(from).replace('\u00a0m', '')} → ${metres(to)}`;
}

function barrierMarks({ mounted, line }: DrawnBeam, place: Place): Markup {
  const inward = mounted.mount === 'right-jamb' ? -1 : 1;
  const [[from, z0], [to, z1]] = [place(line.from), place(line.to)];
  return html`<path class="emitter" d="M${px(from - inward * 11)} ${px(z0 - 6)}l${inward * 11} 6l${-inward * 11} 6z"/><path class="receiver" d="M${px(to)} ${px(z1 - 6)}v12"/>`;
}

/** Labels beside a jamb, top to bottom, each tied to its place by a thin line. */
function beside(those: readonly DrawnBeam[], wood: number, outward: 1 | -1, z: (m: number) => number): Markup[] {
  const sorted = [...those].sort((a, b) => labelledHeight(b) - labelledHeight(a));
  const wanted = sorted.map((b) => z(labelledHeight(b)));
  const places = spread(wanted, ROW, z(0) + 10);
  const [text, anchor] = [px(wood + outward * LEADER), outward > 0 ? 'start' : 'end'];
  return sorted.map((b, i) => {
    const y = places[i] ?? 0;
    return html`<path class="tick" d="M${px(wood + outward * 3)} ${px(wanted[i] ?? 0)}L${px(wood + outward * 14)} ${px(y)}"/>
<text x="${text}" y="${px(y - 1)}" text-anchor="${anchor}">${named(b.label)}</text><text class="note" x="${text}" y="${px(y + 13)}" text-anchor="${anchor}">${noteOf(b)}</text>`;
  });
}

/** Labels over the lintel, one line each, the leftmost highest. */
function over(those: readonly DrawnBeam[], wood: number, x: (m: number) => number, z: (m: number) => number): Markup[] {
  const sorted = [...those].sort((a, b) => a.line.from.x - b.line.from.x);
  return sorted.map((b, i) => {
    const [at, y] = [x(b.line.from.x), wood - 10 - (sorted.length - 1 - i) * LINE];
    return html`<path class="tick" d="M${px(at)} ${px(z(b.line.from.z) - 11)}V${px(y + 2)}h4"/><text x="${px(at + 7)}" y="${px(y + 3)}">${named(b.label)} <tspan class="note">${noteOf(b)}</tspan></text>`;
  });
}

function describe(door: DesignDoor, people: readonly Silhouette[], design: Design): string {
  const lines = door.beams.map((b) => beamSentence(b, sensorNamed(design, b.sensor).kind));
  const bodies = people.map(
    (s) =>
      `${s.is === 'pet' ? 'An animal' : 'A person'} of ${metres(Math.round(s.stature_m * 100) / 100)} (${named(s.who)}) stands in it.`,
  );
  return `The opening is ${metres(door.width_m)} wide and ${metres(door.height_m)} high. ${[...lines, ...bodies].join(' ')}`;
}
