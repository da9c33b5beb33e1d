/** Words for problems of the plan of a house. Part of explain.ts. */
import { printable, quote, short } from '../engine/printable.js';
import type { Explanation } from './explanation.js';
import type { PlanProblem } from './plan-problem.js';
import { list } from './words.js';

const centimetres = (m: number): string => short(Math.round(m * 100) / 100);

export function explainPlan(p: PlanProblem): Explanation {
  switch (p.code) {
    case 'off_wall':
      return {
        text: `expected a place in the wall of what the door joins, at most ${short(p.most_m)} m off, found ${awayWords(p.rooms)}`,
        hint: "at_m is the middle of the opening; mend it, or the rooms' at_m and size_m",
      };
    case 'off_stairs':
      return {
        text: `expected the foot or head of the stairs in one of the rooms they join, found ${awayWords(p.rooms)}`,
        hint: 'at_m is where people pass the beams; mend it, or the rooms',
      };
    case 'overlap':
      return {
        text: `the room overlaps ${quote(p.other)} by ${centimetres(p.x_m)} m by ${centimetres(p.y_m)} m`,
        hint: 'rooms are rectangles side by side; mend at_m, size_m or storey',
      };
    case 'same_storey':
      return {
        text: `stairs join two storeys, both rooms are on storey ${p.storey}`,
        hint: 'give one of the rooms another storey, or take way: opening',
      };
    case 'other_storey':
      return {
        text: `${p.way === 'opening' ? 'an opening' : 'a door'} joins rooms of one storey, these are on ${p.storeys[0]} and ${p.storeys[1]}`,
        hint: 'way: stairs, or mend storey of a room',
      };
    case 'same_door':
      return {
        text: `door ${quote(p.other)} is at the same place and joins the same rooms`,
        hint: 'whoever passes would be counted twice',
      };
    case 'no_door':
      return { text: `no door leads to the room ${quote(p.room)}`, hint: 'add a door, or leave the room out' };
    case 'unreachable':
      return {
        text: `nobody can come to the room ${quote(p.room)}: neither from outside nor from a room with people in it`,
        hint: 'add the door that is missing, or people_at_start',
      };
    case 'no_way_out':
      return {
        text: 'no door leads outside',
        hint: 'if the house has one, its people are missed: a door from or to outside',
      };
    case 'faces_wrong':
      return {
        text: `forward points to ${short(p.facing_deg)}° on the plan, which does not lead from the first room to the second through this wall`,
        hint: `facing_deg: ${short(p.should_deg)} would (0 is up, 90 to the right)`,
      };
    case 'off_plan':
      return {
        text: `expected a place in ${p.room === null ? 'a room on the ground floor' : `the room ${quote(p.room)}`}, found one ${centimetres(p.away_m)} m away`,
        hint: p.room === null ? 'mend at_m, or name the room: room' : 'mend at_m or room',
      };
  }
}

function awayWords(rooms: Extract<PlanProblem, { code: 'off_wall' }>['rooms']): string {
  return list(rooms.map(({ room, away_m }) => `${centimetres(away_m)} m from the wall of ${printable(room)}`));
}
