/**
 * What hidden Markov logics know of their doorways, learnt before the run: replicates of their own streams are watched,
 * never those that are judged. It is what a careful owner could learn by standing at each door for a while with a
 * notebook.
 */
import type { Visit } from '../agents/visit.js';
import type { OutsideLogics } from '../counter/make-logic.js';
import { type WatchedVisit, learn } from '../counter/hidden-markov/learn.js';
import { HOUR_US } from '../engine/time.js';
import type { Design, LearntDoorway } from '../scenario/schema.js';
import { clockOf } from './plan.js';
import { runReplicate } from './replicate.js';

/** Replicates that are watched. */
const WATCHED = 2;
const TICK_US = 20_000;
/** Visits nearer to each other than this are not one body's alone; and beams may clear so late after one. */
const APART_US = 500_000;
/** More visits of one door teach nothing new. */
const ENOUGH_VISITS = 3000;
/** A door with fewer learns from all doors with as many beams. */
const FEWEST_VISITS = 30;

/** What was seen of one door in one replicate. */
interface Seen {
  readonly visits: Visit[];
  /** Changes of its levels: when, and to what. */
  readonly times: number[];
  readonly masks: number[];
}

/** The design with what its hidden Markov logics need: itself where none needs any, or all is there. */
export function taught(design: Design, outside?: OutsideLogics): Design {
  const wanted = design.logics.filter(({ use }) => use === 'hidden-markov').map(({ name }) => name);
  const known = design.learnt ?? [];
  const complete = design.doors.every((door) =>
    wanted.every((logic) => known.some((one) => one.door === door.name && one.logic === logic)),
  );
  if (wanted.length === 0 || complete) return design;
  const { calibration: _, ...rest } = design;
  const plain: Design = {
    ...rest,
    logics: [{ use: 'four-level', name: 'watching', timeout_ms: 10_000 }],
    ledgers: [{ use: 'raw', name: 'raw' }],
    targets: [],
  };
  const taughtBy = design.doors.map((): { visits: WatchedVisit[]; idle: number[] } => ({ visits: [], idle: [] }));
  for (let number = 1; number <= WATCHED; number++)
    watched(plain, number, outside).forEach((seen, d) => {
      const { visits, idle } = taughtBy[d]!;
      visits.push(...aloneIn(seen).slice(0, ENOUGH_VISITS - visits.length));
      idleTicks(seen, clockOf(design), 1 << design.doors[d]!.beams.length).forEach(
        (ticks, mask) => (idle[mask] = (idle[mask] ?? 0) + ticks),
      );
    });
  const learnt = design.doors.flatMap((door, d): LearntDoorway[] => {
    const beams = door.beams.length;
    const alike = design.doors.flatMap((other, o) => (other.beams.length === beams ? taughtBy[o]!.visits : []));
    const own = taughtBy[d]!.visits;
    const model = learn(own.length < FEWEST_VISITS ? alike : own, taughtBy[d]!.idle, TICK_US, beams);
    return wanted.map((logic) => ({
      door: door.name,
      logic,
      tick_us: model.tick_us,
      transition: model.transition.map((row) => [...row]),
      emission: model.emission.map((row) => [...row]),
    }));
  });
  return { ...design, learnt };
}

function watched(design: Design, number: number, outside: OutsideLogics | undefined): Seen[] {
  const seen = design.doors.map((): Seen => ({ visits: [], times: [], masks: [] }));
  runReplicate(
    design,
    number,
    {},
    {
      purpose: 'calibration',
      outside,
      watch: {
        visit: (visit) => void seen[visit.door]!.visits.push(visit),
        input(door, time_us, mask) {
          seen[door]!.times.push(time_us);
          seen[door]!.masks.push(mask);
        },
      },
    },
  );
  return seen;
}

/** Visits of one body alone, tick by tick from the first broken beam to the last. */
function aloneIn({ visits, times, masks }: Seen): WatchedVisit[] {
  const found: WatchedVisit[] = [];
  let at = 0;
  visits.forEach((visit, v) => {
    const [before, after] = [visits[v - 1], visits[v + 1]];
    const alone =
      (before?.leave_us ?? -Infinity) < visit.enter_us - APART_US &&
      (after?.enter_us ?? Infinity) > visit.leave_us + APART_US;
    // Whoever is nobody, a pet or a leaf, has no way of its own to be learnt.
    if (!alone || visit.persons === 0) return;
    const end_us = visit.leave_us + APART_US;
    while (at < times.length && times[at]! < visit.enter_us) at++;
    let last = at;
    while (last < times.length && times[last]! <= end_us) last++;
    let first = at;
    while (first < last && masks[first] === 0) first++;
    let ended = last - 1;
    while (ended > first && masks[ended] !== 0) ended--;
    if (first >= last || masks[ended] !== 0) return;
    found.push({ way: wayOf(visit), masks: ticksOf(times, masks, first, ended) });
  });
  return found;
}

function wayOf({ cross_us, direction }: Visit): number {
  if (cross_us !== null) return direction === 'forward' ? 0 : 1;
  return direction === 'forward' ? 2 : 3;
}

function ticksOf(times: readonly number[], masks: readonly number[], first: number, ended: number): number[] {
  const ticks: number[] = [];
  let at = first;
  for (let time_us = times[first]!; time_us < times[ended]!; time_us += TICK_US) {
    while (at + 1 <= ended && times[at + 1]! <= time_us) at++;
    ticks.push(masks[at]!);
  }
  return ticks;
}

/** Ticks with nobody there, by what the beams showed. */
function idleTicks({ visits, times, masks }: Seen, clock_us: number, kinds: number): number[] {
  const ticks = Array.from({ length: kinds }, () => 0);
  let busy_us = 0;
  let until_us = 0;
  const spans: [number, number][] = [];
  for (const { enter_us, leave_us } of visits) {
    const from = Math.max(enter_us, until_us);
    const to = Math.max(until_us, leave_us + APART_US);
    if (to > from) spans.push([from, to]);
    busy_us += Math.max(0, to - from);
    until_us = to;
  }
  let s = 0;
  let broken = 0;
  times.forEach((time_us, i) => {
    const mask = masks[i]!;
    if (mask === 0) return;
    const end_us = times[i + 1] ?? time_us;
    while (s < spans.length && spans[s]![1] <= time_us) s++;
    const span = spans[s];
    // What begins while somebody is there is theirs.
    if (span && time_us >= span[0]) return;
    const free_us = Math.min(end_us, span?.[0] ?? Infinity) - time_us;
    ticks[mask]! += free_us / TICK_US;
    broken += free_us;
  });
  ticks[0] = Math.max(HOUR_US / 60, clock_us - busy_us - broken) / TICK_US;
  return ticks.map((one) => Math.round(one));
}
