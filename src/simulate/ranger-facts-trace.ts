/** One lone visit as one ranger sees it, free of noise: at even instants, and read at its real interval. */
import { nearWithin } from '../agents/motion/near.js';
import { Posed } from '../agents/motion/posed.js';
import { SECOND_US } from '../engine/time.js';
import { NO_ECHO } from '../sensors/ranger.js';
import { Switch } from '../sensors/switching/switch.js';
import type { Arrival } from './parties.js';
import { breaksBeam, type Placed } from './ranger-facts-house.js';
import { DoorScene } from './scene.js';

/** Between the instants at which a visit is looked at: a brisk walker moves 15 mm in it. */
const STEP_S = 0.01;

export interface RangerCrossing {
  /**
   * When it would read nearer than its switching point: seconds since entering, [start, end, …], to a step. None when
   * the idle door is broken: nobody's coming changes that.
   */
  readonly near_s: readonly number[];
  /** Share of phases of its rhythm in which a reading at its real interval does. */
  readonly read: number;
  /** How often its switching says broken, in one phase. */
  readonly breaks: number;
  /** Instants with somebody in its axis, and those of them without echo. */
  readonly inAxis: number;
  readonly lost: number;
}

const BODIES = new DoorScene();

/**
 * @param axis_s when somebody stands in its axis, seconds since entering: [start, end, …]
 * @param clothing what the body's clothes draw @param phase of the readings that are switched, 0 to 1
 */
export function rangerCrossing(
  placed: Placed,
  { body, passage }: Arrival,
  interval_ms: number,
  axis_s: readonly number[],
  clothing: number,
  phase: number,
): RangerCrossing {
  const { near_m, heights_m } = placed.ranger;
  const near = nearWithin(body, passage.motion, { along_m: near_m, heights_m });
  const end_s = passage.leave_s;
  const first = near === null ? 0 : Math.max(0, Math.floor(near.start_s / STEP_S));
  const count = near === null ? 0 : Math.floor(Math.min(end_s, near.end_s) / STEP_S) - first + 1;
  const posed = new Posed(body, passage.motion);
  const readings_um = Array.from({ length: Math.max(0, count) }, (_, i) => {
    BODIES.clear();
    BODIES.add(posed, (first + i) * STEP_S, clothing, near?.limbs ?? null);
    return placed.ranger.reading(placed.ranger.sees(BODIES.scene), 0.5);
  });
  const interval_us = Math.max(1, Math.round(interval_ms * 1000));
  const readAt: ReadAt = (start_us) => {
    const pose_us = placed.ranger.poseTime(start_us + BEFORE_US) - BEFORE_US;
    return readings_um[Math.round(pose_us / SECOND_US / STEP_S) - first] ?? placed.idle_um;
  };
  const span_us = [first * STEP_S * SECOND_US, (first + count) * STEP_S * SECOND_US + LATE_US] as const;
  return {
    near_s: nearTimes(placed, readings_um, first, end_s),
    read: readShare(placed, interval_us, span_us, readAt),
    breaks: breaksOf(placed, interval_us, span_us[0] + phase * interval_us - LATE_US, span_us[1], readAt),
    ...lostOf(readings_um, first, axis_s),
  };
}

type ReadAt = (start_us: number) => number;
/** Free-running sensors began long before. */
const BEFORE_US = 3600 * SECOND_US;
/** What is read is seen this much earlier or later at most. */
const LATE_US = SECOND_US;

function nearTimes(placed: Placed, readings_um: readonly number[], first: number, end_s: number): number[] {
  const times: number[] = [];
  if (breaksBeam(placed, placed.idle_um)) return times;
  let before = false;
  readings_um.forEach((reading, i) => {
    const now = breaksBeam(placed, reading);
    if (now !== before) times.push(Math.max(0, (first + i - 0.5) * STEP_S));
    before = now;
  });
  if (before) times.push(Math.min(end_s, (first + readings_um.length - 0.5) * STEP_S));
  return times;
}

function readShare(
  placed: Placed,
  interval_us: number,
  [from_us, to_us]: readonly [number, number],
  readAt: ReadAt,
): number {
  const phases = Math.min(MOST_PHASES, Math.max(1, Math.round(interval_us / SECOND_US / STEP_S)));
  let read = 0;
  for (let p = 0; p < phases; p++) {
    const start_us = from_us - LATE_US + ((p + 0.5) * interval_us) / phases;
    for (let at_us = start_us; at_us < to_us; at_us += interval_us) {
      if (!breaksBeam(placed, readAt(at_us))) continue;
      read++;
      break;
    }
  }
  return read / phases;
}
const MOST_PHASES = 50;

function breaksOf(placed: Placed, interval_us: number, from_us: number, to_us: number, readAt: ReadAt): number {
  const { switching: settings, range_m } = placed.mounted.sensor;
  const switching = new Switch(settings, Math.round(range_m * 1e6));
  // It has learnt its background, and its window is full.
  const before = (settings.nearer_than_m === undefined ? settings.learn_readings : 0) + settings.median_of;
  for (let n = -before; n < 0; n++) switching.reading(Math.round(from_us + n * interval_us), placed.idle_um);
  let breaks = 0;
  for (let at_us = from_us; at_us < to_us; at_us += interval_us) {
    const { level } = switching;
    switching.reading(Math.round(at_us), readAt(at_us));
    if (level === 0 && switching.level === 1) breaks++;
  }
  return breaks;
}

function lostOf(
  readings_um: readonly number[],
  first: number,
  axis_s: readonly number[],
): Pick<RangerCrossing, 'inAxis' | 'lost'> {
  let inAxis = 0;
  let lost = 0;
  readings_um.forEach((reading, i) => {
    const at_s = (first + i) * STEP_S;
    for (let k = 0; k + 1 < axis_s.length; k += 2) {
      if (at_s < axis_s[k]! || at_s > axis_s[k + 1]!) continue;
      inAxis++;
      if (reading === NO_ECHO) lost++;
      return;
    }
  });
  return { inAxis, lost };
}
