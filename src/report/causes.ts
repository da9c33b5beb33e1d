/** What goes wrong most often in a week: doors, and who does what in them. */
import { DAY_H, WEEK_H } from '../engine/time.js';
import type { Design } from '../scenario/schema.js';
import type { DoorMetrics, KindRate, Metrics } from '../score/metrics-schema.js';
import { headlineLogic } from './words.js';
import { highOf, lowOf } from './worst.js';

export interface Cause {
  readonly door: DoorMetrics;
  readonly rate: KindRate;
}

/** Every kind of passage of every door, most wrong counts a week first, those without a number last. */
export function causesOf(doors: readonly DoorMetrics[]): Cause[] {
  const wrong = ({ rate }: Cause): number => rate.wrong_per_week.value ?? -1;
  return doors.flatMap((door) => door.by_kind.map((rate) => ({ door, rate }))).sort((a, b) => wrong(b) - wrong(a));
}

/** Causes whose interval reaches into that of the first, so that the order is not certain. */
export function rivalsOf(causes: readonly Cause[]): Cause[] {
  const [first, ...others] = causes;
  if (first === undefined) return [];
  return others.filter(
    ({ rate }) =>
      (rate.wrong_per_week.value ?? 0) > 0 && highOf(rate.wrong_per_week) >= lowOf(first.rate.wrong_per_week),
  );
}

/** Wrong counts a week at a door, from its counts; where nobody crossed, those for nobody. Null without a number. */
export function wrongPerWeek(
  door: DoorMetrics,
  run: { readonly replicates: number; readonly hours: number },
): number | null {
  const { wrong_per_100, person_crossings, invented_per_hour } = door;
  if (wrong_per_100.value === null) return invented_per_hour.value === null ? null : invented_per_hour.value * WEEK_H;
  return ((wrong_per_100.value * person_crossings) / 100 / (run.replicates * run.hours)) * WEEK_H;
}

/** The door whose headline logic makes most wrong counts a week; the first of equals. */
export function worstDoor(design: Design, metrics: Metrics): DoorMetrics | undefined {
  const doors = metrics.doors.filter(({ logic }) => logic === headlineLogic(design));
  const wrong = (door: DoorMetrics): number => wrongPerWeek(door, metrics) ?? -1;
  const [first, ...others] = doors;
  return others.reduce((a, b) => (a === undefined || wrong(b) > wrong(a) ? b : a), first);
}

/** 'a week'; of a clock that doesn't cover a day, so many hours like those it covers, nights included. */
export function weekWords(hours: number): string {
  return hours >= DAY_H ? 'a week' : `in ${WEEK_H} hours like these`;
}
