/** The plan of a house, a drawing for each storey to one scale: rooms, doors with their beams, controllers, cables. */
import { type Cable, type Cabling, homeOf } from '../../effort/cables.js';
import { type HousePlan, type PlanRoom, type Spot, inFrame, storeyOf, straight_m } from '../../geometry/house-plan.js';
import type { WallPlace } from '../../geometry/wall-ways.js';
import type { Design } from '../../scenario/schema.js';
import { html, type Markup } from '../html.js';
import { capital, decimal, joined, named, plain, plural } from '../words.js';
import { type Sheet, at, doorMark, stairsMark } from './house-doors.js';
import { picture, px } from './svg.js';

/** Inner width and greatest height of the rooms, pixels: letters must stay readable on a phone. */
const WIDE = 340;
const HIGH = 460;
const SIDE = 34;
const ROW = 17;
const LETTER = 7.4;
/** Cables are drawn so far inside the walls they run on, pixels. */
const INSIDE = 5;
/** A room's name this far from every door is clear of them. */
const CLEAR_M = 1.2;
const BARS_M = [0.5, 1, 2, 5, 10, 20, 50, 100];

export interface StoreyDrawing {
  readonly storey: number;
  readonly size: { readonly width: number; readonly height: number };
  readonly title: string;
  readonly description: string;
  readonly content: Markup;
}

/** 'ground floor', 'storey 1', 'cellar 1'. */
export function storeyWords(storey: number): string {
  return storey === 0 ? 'ground floor' : storey > 0 ? `storey ${storey}` : `cellar ${-storey}`;
}

/** Letters for controllers, in order: A … Z, then A1 and so on. */
export function controllerLetter(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : `${letter}${Math.floor(index / 26)}`;
}

/** A drawing for each storey, the lowest first. */
export function storeyDrawings(design: Design, plan: HousePlan, cables: Cabling): StoreyDrawing[] {
  const low = { x: Math.min(...plan.rooms.map((r) => r.low.x)), y: Math.min(...plan.rooms.map((r) => r.low.y)) };
  const high = { x: Math.max(...plan.rooms.map((r) => r.high.x)), y: Math.max(...plan.rooms.map((r) => r.high.y)) };
  const scale = Math.min(WIDE / (high.x - low.x), HIGH / (high.y - low.y));
  const sheet: Sheet = { x: (m) => SIDE + (m - low.x) * scale, y: (m) => SIDE + (high.y - m) * scale, scale };
  const storeys = [...new Set(plan.rooms.map(({ storey }) => storey))].sort((a, b) => a - b);
  const foot = SIDE + (high.y - low.y) * scale + SIDE;
  return storeys.map((storey) => oneStorey(design, plan, cables, storey, sheet, foot));
}

/** The same as pictures of their own. */
export function housePictures(id: string, drawings: readonly StoreyDrawing[]): Markup[] {
  return drawings.map((d) => picture(`${id}-${d.storey}`, d.size, d.title, d.description, d.content));
}

function oneStorey(
  design: Design,
  plan: HousePlan,
  cables: Cabling,
  storey: number,
  sheet: Sheet,
  foot: number,
): StoreyDrawing {
  const rooms = plan.rooms.filter((room) => room.storey === storey);
  const doors = plan.doors.map((placed, i) => ({ placed, door: design.doors[i]!, number: i + 1 }));
  const here = doors.filter(({ placed }) => storeyOf(plan, placed) === storey);
  const passing = doors.filter(
    ({ placed }) =>
      !here.some((one) => one.placed === placed) && rooms.some(({ name }) => [placed.from, placed.to].includes(name)),
  );
  const homes = design.controllers.flatMap((controller, i) => {
    const home = homeOf(plan, controller);
    return home?.storey === storey ? [{ name: controller.name, letter: controllerLetter(i), ...home }] : [];
  });
  const key = [
    ...here.map(({ door, number }) => `${number}\u2002${named(door.name)}, ${named(door.from)} to ${named(door.to)}`),
    ...passing.map(({ door, number }) => `${number}\u2002${named(door.name)}: see the other storey`),
    ...homes.map(({ letter, name }) => `${letter}\u2002controller ${named(name)}`),
  ];
  const bar_m = BARS_M.findLast((m) => m * sheet.scale <= WIDE / 3) ?? 0.5;
  const width = WIDE + 2 * SIDE;
  const letters = Math.floor((width - 16) / LETTER);
  const lines = key.map((line, i) => {
    const text = Array.from(line);
    const cut = text.length > letters ? `${text.slice(0, letters - 1).join('')}…` : line;
    return html`<text class="note" x="8" y="${px(foot + 34 + i * ROW)}">${cut}</text>`;
  });
  const content = html`<g class="house">${rooms.map((room) =>
    roomMark(
      sheet,
      room,
      [...here, ...passing].map(({ placed }) => placed.at),
    ),
  )}${cableMarks(plan, cables, storey, sheet)}${here.map(({ placed, door, number }) => doorMark(sheet, placed, door, number))}${passing.map(({ placed, number }) => stairsMark(sheet, placed, number))}${homes.map(({ spot, letter }) => controllerMark(sheet, spot, letter))}</g>
<path class="tick" d="M${SIDE} ${px(foot)}v-6m0 3h${px(bar_m * sheet.scale)}m0 -3v6"/><text class="note" x="${px(SIDE + bar_m * sheet.scale + 6)}" y="${px(foot + 1)}">${decimal(bar_m)} m</text>${lines}`;
  return {
    storey,
    size: { width, height: foot + 26 + key.length * ROW },
    title: `Plan of the house, ${storeyWords(storey)}`,
    description: capital(
      `${joined(rooms.map(roomWords))}. ${plural(here.length, 'door')}${here.length > 0 ? `: ${joined(here.map(({ door }) => `${plain(door.name)} from ${plain(door.from)} to ${plain(door.to)}`))}` : ''}.${homes.length > 0 ? ` Controllers: ${joined(homes.map(({ name, room }) => `${plain(name)} in ${plain(room)}`))}.` : ''}`,
    ),
    content,
  };
}

export function area_m2({ low, high }: PlanRoom): number {
  return (high.x - low.x) * (high.y - low.y);
}

const roomWords = (room: PlanRoom): string => `${plain(room.name)} of ${decimal(area_m2(room), 1)}\u00a0m²`;

/** How far up a room its name stands: in the middle, or where doors and stairs leave more room. */
function labelShare({ low, high }: PlanRoom, doors: readonly Spot[]): number {
  const x = (low.x + high.x) / 2;
  const free_m = (share: number): number => {
    const spot = { x, y: low.y + share * (high.y - low.y) };
    return Math.min(CLEAR_M, ...doors.map((door) => straight_m(spot, door)));
  };
  return [0.5, 0.7, 0.3, 0.85].reduce((best, share) => (free_m(share) > free_m(best) ? share : best));
}

function roomMark(sheet: Sheet, room: PlanRoom, doors: readonly Spot[]): Markup {
  const { low, high } = room;
  const [w, h] = [(high.x - low.x) * sheet.scale, (high.y - low.y) * sheet.scale];
  const [x, y] = [sheet.x(low.x) + w / 2, sheet.y(low.y) - labelShare(room, doors) * h];
  // Where a name does not fit across, it is written upwards; where it does not fit at all, it is cut.
  const upright = w < room.name.length * LETTER + 12 && h > w;
  const fits = Math.max(2, Math.floor(((upright ? h : w) - 12) / LETTER));
  const letters = Array.from(room.name);
  const name = letters.length > fits ? `${letters.slice(0, fits - 1).join('')}…` : room.name;
  const turned = upright ? ` rotate(-90 ${px(x)} ${px(y)})` : '';
  const area =
    Math.min(w, h) > 44 &&
    html`<text class="note" x="${px(x)}" y="${px(y + 15)}" text-anchor="middle">${decimal(area_m2(room), 1)} m²</text>`;
  return html`<rect class="room" x="${px(sheet.x(low.x))}" y="${px(sheet.y(high.y))}" width="${px(w)}" height="${px(h)}"/><g transform="translate(0 0)${turned}"><text x="${px(x)}" y="${px(y)}" text-anchor="middle">${named(name)}</text>${area}</g>`;
}

function controllerMark(sheet: Sheet, spot: { readonly x: number; readonly y: number }, letter: string): Markup {
  const [x, y] = [sheet.x(spot.x), sheet.y(spot.y)];
  return html`<rect class="controller" x="${px(x - 8)}" y="${px(y - 8)}" width="16" height="16"/><text class="in" x="${px(x)}" y="${px(y + 4)}" text-anchor="middle">${letter}</text>`;
}

/** Every stretch once, however many cables share it; where they leave the storey, a ring. */
function cableMarks(plan: HousePlan, { cables }: Cabling, storey: number, sheet: Sheet): Markup {
  const strokes = new Set<string>();
  const rings = new Set<string>();
  const inside = (place: WallPlace): string => inwards(plan, sheet, place);
  for (const cable of cables) {
    for (const [i, to] of cable.way.entries()) {
      const from = cable.way[i - 1];
      if (!from) continue;
      if (from.storey === storey && to.storey === storey) strokes.add(`M${inside(from)}L${inside(to)}`);
      else for (const end of [from, to]) if (end.storey === storey) rings.add(inside(end));
    }
    const last = cable.way.at(-1);
    const door = doorOf(plan, cable);
    if (last?.storey === storey && door) strokes.add(`M${inside(last)}L${at(sheet, inFrame(door, cable.across_m))}`);
  }
  return html`<path class="cable" d="${[...strokes].join('')}"/>${[...rings].map((ring) => {
    const [x, y] = ring.split(' ');
    return html`<circle class="riser" cx="${x}" cy="${y}" r="5"/>`;
  })}`;
}

const doorOf = (plan: HousePlan, cable: Cable) => plan.doors.find(({ name }) => name === cable.door);

/** A place on a wall, moved a little into its room. */
function inwards(plan: HousePlan, sheet: Sheet, { x, y, room: name }: WallPlace): string {
  const room = plan.rooms.find((one) => one.name === name);
  const shift = (v: number, low: number, high: number): number => (v === low ? INSIDE : v === high ? -INSIDE : 0);
  const [dx, dy] = room ? [shift(x, room.low.x, room.high.x), shift(y, room.low.y, room.high.y)] : [0, 0];
  return `${px(sheet.x(x) + dx)} ${px(sheet.y(y) - dy)}`;
}
