/** Words for problems of sensors and of what reads them. Part of explain.ts. */
import { printable, quote, short } from '../engine/printable.js';
import type { Explanation } from './explanation.js';
import type { SensorProblem } from './sensor-problem.js';
import { list } from './words.js';

const NOT_FOR_HINTS: Readonly<Record<string, string>> = {
  tilt_deg: 'a light barrier is aimed by its far end: far_height_m, in a list of beams',
  turn_deg: 'a light barrier is aimed by its far end: far_at_m',
  across_m: 'a light barrier runs from jamb to jamb',
  far_at_m: 'a ranger has no far end: turn_deg turns it out of the door plane',
  far_height_m: 'a ranger has no far end: tilt_deg tilts it up or down',
};

export function explainSensors(p: SensorProblem): Explanation {
  switch (p.code) {
    case 'barrier_mount':
      return {
        text: `light barriers can't be mounted ${p.mount === 'lintel' ? 'under the lintel' : `as ${printable(p.mount)}`}`,
        hint:
          p.mount === 'lintel'
            ? 'a light barrier has one end in each jamb; put it into left-jamb or right-jamb'
            : 'they run straight across: interleaved puts one into each jamb',
      };
    case 'not_for':
      return {
        text: `a sensor of kind ${printable(p.kind)} has no ${p.key}`,
        hint: NOT_FOR_HINTS[p.key] ?? 'take it out',
      };
    case 'across_mount':
      return {
        text: `across_m is for rangers under the lintel, this one is mounted on the ${printable(p.mount)}`,
        hint: 'mount: lintel, or take across_m out',
      };
    case 'outside_opening':
      return {
        text: `expected at most ${short(p.width_m)} metres, the width of the opening, found ${short(p.across_m)}`,
      };
    case 'faces_too_far':
      return {
        text: `rangers ${short(p.spacing_m)} m apart would have to turn ${short(p.turn_deg, 3)} degrees to face each other, at most ${short(p.most_deg)} are allowed`,
        hint: 'bring them nearer to each other: spacing_m',
      };
    case 'even_median':
      return {
        text: `expected an odd number of readings, found ${short(p.found)}`,
        hint: `the median is the one in the middle: ${short(p.found - 1)} or ${short(p.found + 1)}`,
      };
    case 'not_below':
      return { text: `${p.low_key} ${short(p.low)} must be below ${p.high_key} ${short(p.high)}` };
    case 'needs_key':
      return { text: `${printable(p.what)} needs ${p.key}`, hint: `add the key ${p.key}` };
    case 'table_order':
      return {
        text: 'rows must run one way: with fewer volts the distance grows, no two rows alike',
        hint: 'leave out rows nearer than the fold: one voltage would stand for two distances',
      };
    case 'time_out_short':
      return {
        text: `${short(p.time_out_ms)} ms are over before an echo from range_m, ${short(p.range_m)} m, is back: that takes ${short(p.least_ms, 3)} ms`,
        hint: 'raise time_out_ms or lower range_m',
      };
    case 'clears_behind': {
      const room = p.learnt
        ? 'the margin to the learnt background'
        : `what nearer_than_m leaves to the frame in the axis of ${printable(p.beam)}`;
      return {
        text: `expected hysteresis_m of at most ${short(p.room_m, 3)}, ${room}, found ${short(p.hysteresis_m)}: once broken, a beam hardly clears again`,
        hint: p.learnt ? 'lower hysteresis_m or raise margin_m' : 'lower hysteresis_m or nearer_than_m',
      };
    }
    case 'cycle_or_wait':
      return {
        text: 'expected either cycle_ms or wait_ms, found both',
        hint: 'cycle_ms is from start to start of turns, wait_ms a pause between them',
      };
    case 'twice_in_turn':
      return {
        text: `${quote(p.beam)} is in this turn already`,
        hint: 'a ranger is read once a turn; another turn of the round may have it again',
      };
    case 'turn_barrier':
      return {
        text: `${quote(p.beam)} is a light barrier: it takes no turns`,
        hint: 'light barriers are read all the time, or by poll_ms',
      };
    case 'not_its_beam':
      return {
        text: `${quote(p.beam)} is read by the controller ${quote(p.other)}, not by ${quote(p.controller)}`,
        hint: "the door's key controller says who reads its beams",
      };
    case 'pin_twice':
      return {
        text: `pin ${p.pin} of the controller ${quote(p.controller)} serves ${quote(p.other)} already`,
        hint: 'each pin serves one sensor',
      };
    case 'pin_count':
      return {
        text: `expected ${p.needs} ${p.needs === 1 ? 'pin' : 'pins'} for a sensor of kind ${printable(p.kind)}, found ${p.found}`,
        ...(p.kind === 'ultrasonic-ranger' && { hint: 'one starts the burst, one listens for the echo' }),
      };
    case 'too_few_pins':
      return {
        text: `the controller ${quote(p.controller)} needs ${p.needs} ${p.needs === 1 ? p.what.slice(0, -1) : p.what}, found ${p.found}: ${list(p.by)}`,
        hint: 'take fewer sensors, or a second controller for some of the doors',
      };
  }
}
