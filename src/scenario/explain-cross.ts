/** Words for problems between keys. Part of explain.ts. */
import type { Explanation } from './explanation.js';
import { explainPlan } from './explain-plan.js';
import { explainSensors } from './explain-sensors.js';
import type { CrossProblem, Problem } from './issue.js';
import type { PlanProblem } from './plan-problem.js';
import type { SensorProblem } from './sensor-problem.js';
import { printable, quote, short } from '../engine/printable.js';
import { found, list } from './words.js';

export function explainCross(problem: Problem): Explanation {
  const p = problem as Exclude<CrossProblem, { code: 'table_error' }> | SensorProblem | PlanProblem;
  switch (p.code) {
    case 'duplicate_name':
      return { text: `a second ${p.what} is called ${quote(p.name)}`, hint: `each ${p.what} needs a name of its own` };
    case 'unknown_name':
      return {
        text: p.name === '' ? `expected the name of a ${p.what}` : `there is no ${p.what} ${quote(p.name)}`,
        hint: p.nearest ? `did you mean ${quote(p.nearest)}?` : `there is ${list(p.known)}`,
      };
    case 'reserved_name':
      return {
        text: `${quote(p.name)} can't be the name of a ${p.what}`,
        hint: 'outside is always there and is not counted; take it off the list',
      };
    case 'replaces_built_in':
      return {
        text: `this takes the place of the built-in ${p.what} ${quote(p.name)}`,
        hint: 'if that is not meant, choose another name',
      };
    case 'same_sides':
      return {
        text: `the door leads from ${quote(p.room)} to ${quote(p.room)}`,
        hint: 'from and to are the two sides of the wall',
      };
    case 'pair_or_beams':
      return p.found === 'both'
        ? { text: 'expected either pair or beams, found both', hint: 'pair is short for two level beams A and B' }
        : { text: 'the door has no beams', hint: 'add pair (two level beams) or beams (each by name)' };
    case 'above_lintel':
      return {
        text: `expected at most ${short(p.lintel_m)} metres, the height of the opening, found ${short(p.height_m)}`,
        hint: "lower the beam, or mend the door's height_m",
      };
    case 'outside_zone':
      return {
        text: `a beam ${short(p.at_m)} m from the door plane needs zone_m above ${short(p.least_m)}, found ${short(p.zone_m)}`,
        hint: `the zone covers the outermost beam and ${short(p.least_m - p.at_m)} m, the longest reach of a limb; set zone_m on the door`,
      };
    case 'askew':
      return {
        text: `expected a beam that runs at most ${short(p.most_m)} m along the walk at this width, found ${short(p.along_m)} m`,
        hint: 'a beam crosses the opening; bring at_m and far_at_m nearer to each other',
      };
    case 'rod_too_low':
      return {
        text: `expected at least ${short(p.least_m)} m, the rod's radius, found ${short(p.height_m)} m`,
        hint: 'the rod has a rounded top; make it taller or thinner',
      };
    case 'bracket_needed':
      return {
        text: `beams ${short(p.reach_m)} m from the door plane stick out of a frame ${short(p.jamb_depth_m)} m deep`,
        hint: `${short(2 * p.reach_m)} m between the beams needs brackets, or a deeper frame: jamb_depth_m`,
      };
    case 'beam_order':
      return p.same
        ? {
            text: `beams ${printable(p.first)} and ${printable(p.second)} stand at the same place along the walk: their order can't tell the direction`,
          }
        : {
            text: `beam ${printable(p.second)} is met before beam ${printable(p.first)} going forward`,
            hint: 'the logics take the first beam of the list for the first one met: every count will be the wrong way round',
          };
    case 'beam_count':
      return {
        text: `${list(p.logics)} ${p.logics.length > 1 ? 'expect' : 'expects'} ${p.needs} beams at every door, found ${p.found}`,
        hint: 'change the beams, or use a table of your own for this many',
      };
    case 'never_tallies':
      return {
        text: `no rule of the table ${quote(p.logic)} tallies ${p.ways.join(' or ')}`,
        hint: 'a rule counts by `tally: forward` or `tally: backward`; without one, whoever goes that way is missed',
      };
    case 'beam_names':
      return {
        text: `the table calls the beams ${list(p.table)}, the door ${list(p.door)}`,
        hint: "levels are taken in the door's order, whatever the names",
      };
    case 'shares_sum':
      return { text: `expected shares that add up to 1, found ${short(p.sum)}`, hint: sumHint(p.sum) };
    case 'clock_order':
      return {
        text: `expected a time later than ${p.earlier}, found ${p.later}`,
        hint: 'rows go through the day in order',
      };
    case 'nobody_comes':
      return { text: 'nobody ever comes: the rate is 0', hint: 'counts and rates will be empty' };
    case 'few_there':
      return {
        text: `${p.away < 10 ? short(Math.round(p.away * 10) / 10) : Math.round(p.away)} people of ${quote(p.room)} would be out at once on average, but only ${p.there} ${p.there === 1 ? 'is' : 'are'} in it at the start`,
        hint: 'a party that finds too few people does not come, or others go in its place; raise people_at_start, or lower the arrivals or the stay',
      };
    case 'nobody_there':
      return {
        text: `${p.move} moves begin in ${quote(p.room)}, but nobody is there at the start`,
        hint: nobodyHint(p),
      };
    case 'traffic_and_household':
      return {
        text: 'a household lives in the house, and this door has traffic of its own',
        hint: 'take the traffic away: guests come as visitors or parties of the household',
      };
    case 'start_and_household':
      return {
        text: `a household lives in the house, and ${p.found} more would be here at the start`,
        hint: 'take people_at_start away: where people begin is starts_in of each, or follows from their habits',
      };
    case 'no_room_for':
      return {
        text: `no room of this house has the use ${quote(p.use)}`,
        hint: `give one of them \`use: ${p.use}\`, or name a room: there is ${list(p.rooms)}`,
      };
    case 'no_way':
      return {
        text: `${quote(p.who)} can't walk from ${quote(p.from)} to ${quote(p.to)}: no doors lead there`,
        hint: 'add the door that is missing, or take the room out of the itinerary',
      };
    case 'no_span':
      return {
        text: `expected a later time than ${p.at}, found the same: there are no hours between`,
        hint: 'to may be past midnight',
      };
    case 'manners_sum':
      return {
        text: `turn_back_share, linger_share and reach_share add up to ${short(p.sum)}: more than all walks`,
        hint: 'together they are at most 1; what is left just goes through',
      };
    case 'nobody_lives':
      return {
        text: 'nobody lives in the house and nothing moves in it: counts and rates will be empty',
        hint: 'add people, visitors, parties, pets or robots',
      };
    case 'uses_lacking':
      return {
        text: `${quote(p.household)} speaks of ${list(p.uses)}, and no room of this house has that use: those moves are left out`,
        hint: `give rooms a \`use\`, such as \`use: ${p.uses[0] ?? ''}\`, if they are there under another name`,
      };
    case 'too_wide_on_the_way':
      return {
        text: `${p.what} is ${short(p.breadth_m)} m wide, and door ${quote(p.door)} on the way ${short(p.width_m)} m: it does not fit through`,
        hint: 'it is walked through the frame all the same: choose another load or way, or measure the width again',
      };
    case 'rod_kind':
      return {
        text: `${quote(p.who)} is a test rod: it can only go through, found ${quote(p.kind)}`,
        hint: 'kind: through',
      };
    case 'through_only':
      return {
        text: `${quote(p.who)} is ${p.what}: it can only go through, found ${quote(p.kind)}`,
        hint: 'kind: through',
      };
    case 'leaf_sweeps':
      return {
        text: `the leaf opens ${p.opens} and sweeps what is beyond ${short(p.from_m)} m: every swing breaks the beam at ${short(p.at_m)} m`,
        hint: `put the beams on the other side of the leaf, at most as far as ${short(p.from_m)} m${p.opens_deg <= 95 ? '; standing open it may stay in the beam, which is not simulated' : ''}`,
      };
    case 'too_wide':
      return {
        text: `${quote(p.who)} is ${short(p.breadth_m)} m wide and the opening ${short(p.width_m)} m: it does not fit through`,
        hint: "take it out of the mix, or make the door's width_m larger",
      };
    case 'pet_kind':
      return {
        text: `${quote(p.who)} is a pet: it goes through, turns back or lingers, found ${quote(p.kind)}`,
        hint: 'kind: through, turn-back or linger',
      };
    case 'not_ordered':
      return { text: `${p.low_key} ${short(p.low)} is above ${p.high_key} ${short(p.high)}`, hint: 'swap them' };
    case 'always_broken':
      return {
        text: `${short(p.per_hour)} breaks an hour of ${short(p.length_ms)} ms each leave no time between them`,
        hint: 'spurious_per_hour times spurious_ms must stay below an hour, 3,600,000 ms',
      };
    case 'no_effect':
      return { text: `${p.key} has no effect while ${p.because_key} is ${printable(p.because)}` };
    case 'no_limit':
      return { text: 'the target has no limit', hint: 'add at_most or at_least' };
    case 'bad_metric_root':
      return {
        text: `expected a metric of house, doors or rooms, found ${quote(p.root)}`,
        hint: 'for example house.wrong_per_100 or doors.front.missed_per_100',
      };
    case 'profile_kind':
      return {
        text: `the profile ${quote(p.file)} is one of ${printable(p.kind)}, found ${found(p.found)}`,
        hint: 'leave kind to the profile',
      };
    case 'unreadable_file':
      return {
        text: `${quote(p.name)} can't be read: ${printable(p.detail, 160)}`,
        hint: 'file names are relative to the scenario',
      };
    case 'off_wall':
    case 'off_stairs':
    case 'overlap':
    case 'same_storey':
    case 'other_storey':
    case 'same_door':
    case 'no_door':
    case 'unreachable':
    case 'no_way_out':
    case 'faces_wrong':
    case 'off_plan':
      return explainPlan(p);
    default:
      return explainSensors(p);
  }
}

function sumHint(sum: number): string {
  const rest = 1 - sum;
  if (Math.abs(sum - 100) < 1e-3) return 'shares, not per cent: 0.62, not 62';
  return rest > 0 ? `${short(rest, 3)} is missing` : `${short(-rest, 3)} is too much`;
}

function nobodyHint({ room, move, forward_share }: Extract<CrossProblem, { code: 'nobody_there' }>): string {
  const people = `give the room ${quote(room)} people_at_start`;
  if (move === 'forward')
    return forward_share === 1 ? `${people}, or swap from and to` : `${people}, or set forward_share: 0`;
  return `${people}, or set forward_share: 1`;
}
