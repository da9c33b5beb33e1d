/**
 * A ranger read all the time, as if its controller had nothing else to do: what a run would be without gaps between
 * readings.
 */
import type { Stream } from '../engine/stream.js';
import type { Scene } from '../sensors/ranger.js';
import type { Attendance, Slot } from '../sensors/scan/slot.js';
import type { RangerHooks } from './ranger-hooks.js';

/** A reading's mishap that befalls a ranger of one door when it is read all the time, too. */
export interface Befallen {
  readonly beam: number;
  readonly time_us: number;
  /** It befalls the first reading from `time_us` on, and all before this. */
  readonly until_us: number;
  /** Whole micrometres or NO_ECHO. */
  readonly distance_um: number;
}

/** Readings at even times from `from_us` on and before `until_us`, microseconds. */
export interface ReadingSpan {
  readonly from_us: number;
  readonly until_us: number;
  /** Between two readings. */
  readonly step_us: number;
}

/** Whether a reading is near enough to count as broken at rest. */
export function isNear<A extends Attendance>({ switching }: Slot<A>, distance_um: number): boolean {
  return switching.nearAtRest(distance_um, switching.background_um);
}

/**
 * Reads one ranger. While nobody is about and nothing stirs, the same reading again and again is jumped.
 *
 * @param sceneAt who is about at an instant; null for nobody
 * @param noise draws reading by reading
 * @param befallen what befell readings of the door at the controller's own pace, in order of time
 */
export function readAllTheTime<A extends Attendance>(
  slot: Slot<A>,
  { from_us, until_us, step_us }: ReadingSpan,
  sceneAt: (pose_us: number) => Scene | null,
  noise: Stream,
  befallen: readonly Befallen[],
  hooks: RangerHooks,
): void {
  const { door, beam, ranger, switching } = slot;
  const idle_um = ranger.reading(slot.idle_m, 0.5);
  const struck = befallen.filter((one) => one.beam === beam);
  let next = 0;
  let now: Befallen | null = null;
  for (let n = 0; from_us + n * step_us < until_us; n++) {
    const time_us = from_us + n * step_us;
    const scene = sceneAt(ranger.poseTime(time_us));
    if (next < struck.length && struck[next]!.time_us <= time_us) now = struck[next++]!;
    else if (now !== null && now.until_us <= time_us) now = null;
    const reading = now
      ? now.distance_um
      : scene === null
        ? idle_um
        : ranger.reading(ranger.sees(scene), slot.noiseless ? 0.5 : noise.at(n));
    const { level } = switching;
    const stirred = switching.reading(time_us, reading);
    if (scene !== null || stirred || reading !== slot.last_um)
      hooks.reading?.(door, beam, time_us, reading, isNear(slot, reading));
    slot.last_um = reading;
    if (switching.level !== level) hooks.edge(door, beam, time_us, switching.level);
    if (scene !== null || stirred || now) continue;
    const stirs_us = Math.min(until_us, slot.expected_us() - ranger.latest_us, struck[next]?.time_us ?? Infinity);
    n = Math.max(n, Math.floor((stirs_us - from_us) / step_us) - 1);
  }
}
