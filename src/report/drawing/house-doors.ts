/** Doors on the plan of a house: the gap in the wall, the leaf with its arc, the beams, stairs, and a number each. */
import { type PlanDoor, type Spot, doorAxes, inFrame } from '../../geometry/house-plan.js';
import type { DesignDoor } from '../../scenario/schema.js';
import { html, type Markup } from '../html.js';
import { beamClass, px } from './svg.js';

/** From metres on the plan to pixels. */
export interface Sheet {
  readonly x: (m: number) => number;
  readonly y: (m: number) => number;
  /** Pixels per metre. */
  readonly scale: number;
}

const NUMBER = 8;
/** From the door plane to the middle of its number, pixels. */
const ASIDE = 18;
/** Between neighbouring beams at least, pixels. */
const APART = 4;
const TREADS = [0, 0.28, 0.56, 0.84] as const;

export const at = (sheet: Sheet, { x, y }: Spot): string => `${px(sheet.x(x))} ${px(sheet.y(y))}`;

/** A door on the storey its beams are on. */
export function doorMark(sheet: Sheet, placed: PlanDoor, door: DesignDoor, number: number): Markup {
  const [left, right] = [inFrame(placed, 0), inFrame(placed, door.width_m)];
  const gap = html`<path class="gap" d="M${at(sheet, left)}L${at(sheet, right)}"/>`;
  const stairs = door.way === 'stairs' ? treads(sheet, placed) : null;
  const posts = [left, right].map((spot) => html`<path class="post" d="M${at(sheet, spot)}${alongWalk(placed, 4)}"/>`);
  return html`${gap}${stairs}${leaf(sheet, placed, door)}${beams(sheet, placed, door)}${posts}${numberMark(sheet, placed, number, door.leaf?.opens === 'backward' ? ASIDE : -ASIDE)}`;
}

/** Stairs as the other storey sees them. */
export function stairsMark(sheet: Sheet, placed: PlanDoor, number: number): Markup {
  return html`${treads(sheet, placed)}${numberMark(sheet, placed, number)}`;
}

/** Where the leaf does not swing. */
function numberMark(sheet: Sheet, placed: PlanDoor, number: number, aside = -ASIDE): Markup {
  const { forward } = doorAxes(placed.facing_deg);
  const [x, y] = [sheet.x(placed.at.x) + aside * forward.x, sheet.y(placed.at.y) - aside * forward.y];
  return html`<circle class="number" cx="${px(x)}" cy="${px(y)}" r="${NUMBER}"/><text class="in" x="${px(x)}" y="${px(y + 4)}" text-anchor="middle">${number}</text>`;
}

/** A stroke through a place, along the walk, so many pixels to either side. */
function alongWalk({ facing_deg }: PlanDoor, half: number): string {
  const { forward } = doorAxes(facing_deg);
  const [dx, dy] = [half * forward.x, -half * forward.y];
  return `m${px(-dx)} ${px(-dy)}l${px(2 * dx)} ${px(2 * dy)}`;
}

/** The leaf as it stands open, and the arc its edge draws. */
function leaf(sheet: Sheet, placed: PlanDoor, { leaf: hung, width_m }: DesignDoor): Markup | null {
  if (!hung) return null;
  const { forward, left } = doorAxes(placed.facing_deg);
  const hinge = inFrame(placed, hung.hinge === 'left' ? 0 : width_m);
  const shut = inFrame(placed, hung.hinge === 'left' ? width_m : 0);
  const turn = (hung.opens_deg * Math.PI) / 180;
  const [out, across] = [hung.opens === 'forward' ? 1 : -1, hung.hinge === 'left' ? -1 : 1];
  const [c, s] = [width_m * Math.cos(turn) * across, width_m * Math.sin(turn) * out];
  const edge = { x: hinge.x + c * left.x + s * forward.x, y: hinge.y + c * left.y + s * forward.y };
  const r = px(width_m * sheet.scale);
  // Seen from above, a leaf hinged left that opens forward turns against the clock.
  const sweep = out * across < 0 ? 0 : 1;
  return html`<path class="leaf" d="M${at(sheet, hinge)}L${at(sheet, edge)}"/><path class="arc" d="M${at(sheet, shut)}A${r} ${r} 0 0 ${sweep} ${at(sheet, edge)}"/>`;
}

/** Beams across the opening, spread so far that they can be told apart. */
function beams(sheet: Sheet, placed: PlanDoor, { beams: all, width_m }: DesignDoor): Markup[] {
  const { forward } = doorAxes(placed.facing_deg);
  const [left, right] = [inFrame(placed, 0), inFrame(placed, width_m)];
  return all.map((_, i) => {
    const off = (i - (all.length - 1) / 2) * APART;
    const shifted = (spot: Spot): string =>
      `${px(sheet.x(spot.x) + off * forward.x)} ${px(sheet.y(spot.y) - off * forward.y)}`;
    return html`<path class="${beamClass(i)} thin" d="M${shifted(left)}L${shifted(right)}"/>`;
  });
}

/** Four treads forward of the door. */
function treads(sheet: Sheet, placed: PlanDoor): Markup {
  const { forward } = doorAxes(placed.facing_deg);
  const [left, right] = [inFrame(placed, 0), inFrame(placed, placed.width_m)];
  const on = (spot: Spot, m: number): Spot => ({ x: spot.x + m * forward.x, y: spot.y + m * forward.y });
  return html`<path class="tread" d="${TREADS.map((m) => `M${at(sheet, on(left, m))}L${at(sheet, on(right, m))}`).join('')}"/>`;
}
