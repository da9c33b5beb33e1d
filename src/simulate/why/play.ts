/** A window played again with some things taken away: from the same moment, with the same draws. */
import type { Stream } from '../../engine/stream.js';
import type { Shadow } from '../../sensors/door-sensors.js';
import type { Removal } from '../../score/why-classes.js';
import { type HouseRangers, LAST_US } from '../house-rangers.js';
import type { RangerHooks } from '../ranger-hooks.js';
import type { Arrival } from '../parties.js';
import { shadowOf } from '../shadow.js';
import { befell } from './befell.js';
import { hiddenLimbs } from './hidden-limbs.js';
import type { Told, Window } from './window.js';

/** Between two readings of a ranger that is read all the time. A brisk walker moves 7 mm in it. */
const STEP_US = 5000;

/** Who is still there at the window's door. @param subject number of the visit in question; null for a tally of nobody */
export function remaining(window: Window, subject: number | null, removals: ReadonlySet<Removal>): Arrival[] {
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
 * @param noise draws for readings that were never taken @param reads whether any logic asks for readings
 */
export function play(
  window: Window,
  there: readonly Arrival[],
  removals: ReadonlySet<Removal>,
  { noise, reads }: { readonly noise: Stream; readonly reads: boolean },
): Told[] {
  const { door, end_us } = window;
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
  readRangers(window, there, removals, noise, {
    edge: (at, beam, time_us, level) => {
      if (at === door) inputs.known({ time_us, beam, level });
    },
    ...(reads && {
      reading: (at, beam, time_us, distance_um) => {
        if (at === door) inputs.reading(beam, time_us, distance_um);
      },
    }),
  });
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

/** What the rangers say, at the controller's pace or, without scan gaps, all the time. */
function readRangers(
  window: Window,
  there: readonly Arrival[],
  removals: ReadonlySet<Removal>,
  noise: Stream,
  hooks: RangerHooks,
): void {
  if (!window.rangers) return;
  const { door, start_us: from_us, end_us } = window;
  const noisy = !removals.has('noise');
  if (!removals.has('scan gaps')) {
    const rangers = window.rangers.fork(hooks, noisy);
    walkPast(rangers, window, there, removals, (enter_us) => rangers.until(enter_us));
    rangers.until(end_us + LAST_US);
    return;
  }
  // What befalls readings at the controller's own pace befalls them here: only its not looking is taken away.
  const befallen = befell(door);
  if (noisy) {
    const paced = window.rangers.fork(befallen.hooks, true);
    walkPast(paced, window, there, removals, (enter_us) => paced.until(enter_us));
    paced.until(end_us + LAST_US);
  }
  const rangers = window.rangers.fork(hooks, noisy);
  walkPast(rangers, window, there, removals, () => {});
  rangers.readAllTheTime(door, { from_us, until_us: end_us, step_us: STEP_US }, noise, befallen.all, hooks);
}

/** Bodies at other doors are there too: whoever hears bursts there hears of them. */
function walkPast(
  rangers: HouseRangers,
  { arrived, door }: Window,
  there: readonly Arrival[],
  removals: ReadonlySet<Removal>,
  before: (enter_us: number) => void,
): void {
  for (const one of arrived) {
    const { visit, body, passage } = one;
    const here = visit.door === door;
    if (here && !there.includes(one)) continue;
    before(visit.enter_us);
    rangers.visit(visit.door, visit, body, passage, here ? hiddenLimbs(body, removals) : undefined);
  }
}

/** Those who are there together, one list after the other. */
function episodes(there: readonly Arrival[]): Arrival[][] {
  const all: Arrival[][] = [];
  let end_us = -Infinity;
  for (const arrived of there) {
    if (arrived.visit.enter_us > end_us) all.push([]);
    all[all.length - 1]!.push(arrived);
    end_us = Math.max(end_us, arrived.visit.leave_us);
  }
  return all;
}
