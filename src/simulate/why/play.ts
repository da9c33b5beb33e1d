/** A window played again with some things taken away: from the same moment, with the same draws. */
import type { Stream } from '../../engine/stream.js';
import type { Shadow } from '../../sensors/door-sensors.js';
import type { Removal } from '../../score/why-classes.js';
import { LAST_US } from '../house-rangers.js';
import { shadowOf } from '../shadow.js';
import { hiddenLimbs } from './hidden-limbs.js';
import type { Arrived, Told, Window } from './window.js';

/** Between two readings of a ranger that is read all the time. A brisk walker moves 7 mm in it. */
const STEP_US = 5000;

/** Who is still there at the window's door. @param subject number of the visit in question; null for a tally of nobody */
export function remaining(window: Window, subject: number | null, removals: ReadonlySet<Removal>): Arrived[] {
  return window.arrived.filter(({ visit }) => {
    if (visit.door !== window.door) return false;
    if (visit.kind === 'swing') return !removals.has('leaf');
    return visit.number === subject || !removals.has('other bodies');
  });
}

/**
 * What the controller tells the logics in the window.
 *
 * @param there who is at its door, in order of entering
 * @param noise draws for readings that were never taken
 */
export function play(window: Window, there: readonly Arrived[], removals: ReadonlySet<Removal>, noise: Stream): Told[] {
  const { door, start_us, end_us } = window;
  const told: Told[] = [];
  const looks = !removals.has('scan gaps');
  const noisy = !removals.has('noise');
  const input = (time_us: number, mask: number, before: number, readings: Readings): void =>
    void told.push({ kind: 'input', time_us, mask, changed: mask !== before, readings });
  const gate =
    (looks &&
      window.sensors.gate?.fork({
        levels: input,
        down: (time_us) => told.push({ kind: 'down', time_us }),
        up: (time_us, mask) => told.push({ kind: 'up', time_us, mask }),
      })) ||
    null;
  const inputs = window.sensors.inputs.fork(
    gate ? (time_us, mask, _before, readings) => gate.input(time_us, mask, readings) : input,
    looks,
  );
  const barriers = window.sensors.barriers.fork(noisy);
  const rangers = window.rangers?.fork(
    {
      edge: (at, beam, time_us, level) => {
        if (at === door) inputs.known({ time_us, beam, level });
      },
      reading: (at, beam, time_us, distance_um) => {
        if (at === door) inputs.reading(beam, time_us, distance_um);
      },
    },
    noisy,
  );
  if (rangers) {
    // Bodies at other doors are heard of by whoever hears bursts there.
    for (const arrived of window.arrived) {
      const { visit, body, passage } = arrived;
      const here = visit.door === door;
      if (here && !there.includes(arrived)) continue;
      if (looks) rangers.until(visit.enter_us);
      rangers.visit(visit.door, visit, body, passage, here ? hiddenLimbs(body, removals) : undefined);
    }
    if (looks) rangers.until(end_us + LAST_US);
    else {
      const hooks = {
        edge: (_: number, beam: number, time_us: number, level: 0 | 1) => inputs.known({ time_us, beam, level }),
        reading: (_: number, beam: number, time_us: number, um: number) => inputs.reading(beam, time_us, um),
      };
      rangers.readAllTheTime(door, start_us, end_us, STEP_US, noise, hooks);
    }
  }
  for (const together of episodes(there))
    barriers.episode(
      together.map(
        ({ visit, body, passage }): Shadow =>
          shadowOf(visit, body, passage, barriers.paths, hiddenLimbs(body, removals)),
      ),
    );
  for (const edge of barriers.edgesUntil(end_us)) inputs.edge(edge);
  inputs.settle(end_us);
  gate?.until(end_us - 1);
  return told;
}
type Readings = readonly (number | null)[] | undefined;

/** Those who are there together, one list after the other. */
function episodes(there: readonly Arrived[]): Arrived[][] {
  const all: Arrived[][] = [];
  let end_us = -Infinity;
  for (const arrived of there) {
    if (arrived.visit.enter_us > end_us) all.push([]);
    all[all.length - 1]!.push(arrived);
    end_us = Math.max(end_us, arrived.visit.leave_us);
  }
  return all;
}
