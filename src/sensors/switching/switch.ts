/**
 * How a ranger's readings become a beam that is broken or clear: only whole numbers that fit into 32 bits, nothing
 * allocated, so that it can run on a controller as it stands here.
 *
 * A reading without echo
 * - that means *clear* counts as beyond every switching point, also among the readings a median is taken of;
 * - that means *broken* counts as nearer than every switching point, there too;
 * - that means *keep* is as if it had not been taken: level, window, run of samples and a pending switch-off stay.
 * Only while the background is learnt it counts as the farthest reading, whatever it means later: nothing came back from
 * an idle door.
 */
import { NO_ECHO, micrometres } from '../ranger.js';
import { MedianWindow } from './median-window.js';
import type { SwitchingSettings } from './schema.js';

/** In a window: no echo that means clear, or broken. */
const BEYOND_ALL = 0x7fffffff;
const BEFORE_ALL = -0x80000000;

export class Switch {
  /** 1 while broken. */
  level: 0 | 1 = 0;

  private readonly fixed_um: number | undefined;
  private readonly margin_um: number;
  private readonly hysteresis_um: number;
  private readonly follow_um: number;
  private readonly minimum_samples: number;
  private readonly off_delay_us: number;
  private readonly no_echo: SwitchingSettings['no_echo'];
  private readonly window: MedianWindow;
  /** First readings, until the background is learnt. */
  private learning: MedianWindow | null;
  private background: number;
  /** Near readings in a row while the beam is still clear. */
  private run = 0;
  /** While broken: readings have been clear since `clear_since_us`. */
  private pending = false;
  private clear_since_us = 0;

  /**
   * @param farthest_um what a reading without echo counts as for the background: whole micrometres, the end of the range
   */
  constructor(
    settings: SwitchingSettings,
    private readonly farthest_um: number,
  ) {
    const fixed = settings.nearer_than_m;
    this.fixed_um = fixed === undefined ? undefined : micrometres(fixed);
    this.margin_um = micrometres(settings.margin_m);
    this.hysteresis_um = micrometres(settings.hysteresis_m);
    this.follow_um = settings.follow_um;
    this.minimum_samples = settings.minimum_samples;
    this.off_delay_us = Math.round(settings.off_delay_ms * 1000);
    this.no_echo = settings.no_echo;
    this.window = new MedianWindow(settings.median_of);
    this.learning = fixed === undefined ? new MedianWindow(settings.learn_readings) : null;
    this.background = farthest_um;
  }

  /** The learnt background, whole micrometres: the farthest reading until it is learnt, and always with `nearer_than_m`. */
  get background_um(): number {
    return this.background;
  }

  /**
   * Takes the next reading.
   *
   * @param time_us when it is known, whole microseconds, never falling @param distance_um whole micrometres or NO_ECHO
   * @returns false when nothing inside has changed and nothing runs: the same reading, however often and however much
   *   later, will change nothing either
   */
  reading(time_us: number, distance_um: number): boolean {
    if (this.learning !== null) return this.learn(this.learning, distance_um);
    if (distance_um === NO_ECHO && this.no_echo === 'keep') return false;
    const moved = this.window.push(this.inWindow(distance_um));
    const seen_um = this.window.median();
    const counted = this.level === 1 ? this.whileBroken(time_us, seen_um) : this.whileClear(seen_um);
    const followed = this.level === 0 && this.follow(distance_um);
    return counted || followed || moved;
  }

  /** Whether a reading would count as near if the beam were clear, at rest, with this background. */
  nearAtRest(distance_um: number, background_um: number): boolean {
    if (distance_um === NO_ECHO) return this.no_echo === 'broken';
    return distance_um < (this.fixed_um ?? background_um - this.margin_um);
  }

  /** No beam breaks before its background is known; the last of the first readings makes it known. */
  private learn(first: MedianWindow, distance_um: number): boolean {
    first.push(distance_um === NO_ECHO ? this.farthest_um : distance_um);
    if (distance_um !== NO_ECHO || this.no_echo !== 'keep') this.window.push(this.inWindow(distance_um));
    if (first.full) {
      this.background = first.median();
      this.learning = null;
    }
    return true;
  }

  private inWindow(distance_um: number): number {
    if (distance_um !== NO_ECHO) return distance_um;
    return this.no_echo === 'broken' ? BEFORE_ALL : BEYOND_ALL;
  }

  private point_um(): number {
    return this.fixed_um ?? this.background - this.margin_um;
  }

  /** @returns whether the run of near readings has changed, or the level */
  private whileClear(seen_um: number): boolean {
    if (seen_um >= this.point_um()) {
      const had = this.run > 0;
      this.run = 0;
      return had;
    }
    this.run++;
    if (this.run >= this.minimum_samples) {
      this.run = 0;
      this.level = 1;
    }
    return true;
  }

  /** @returns whether a switch-off is pending or no longer is, or the level has changed */
  private whileBroken(time_us: number, seen_um: number): boolean {
    if (seen_um < this.point_um() + this.hysteresis_um) {
      const had = this.pending;
      this.pending = false;
      return had;
    }
    if (!this.pending) {
      this.pending = true;
      this.clear_since_us = time_us;
    }
    if (time_us - this.clear_since_us >= this.off_delay_us) {
      this.pending = false;
      this.level = 0;
    }
    return true;
  }

  /** The background goes towards a reading while clear. @returns whether it has moved */
  private follow(distance_um: number): boolean {
    if (this.fixed_um !== undefined || (distance_um === NO_ECHO && this.no_echo === 'broken')) return false;
    const off_um = (distance_um === NO_ECHO ? this.farthest_um : distance_um) - this.background;
    if (off_um === 0 || this.follow_um === 0) return false;
    this.background += Math.max(-this.follow_um, Math.min(this.follow_um, off_um));
    return true;
  }
}
