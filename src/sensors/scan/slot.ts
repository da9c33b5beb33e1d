/** One ranger as a controller reads it: what befalls its readings, and the beam they switch. */
import type { Stream } from '../../engine/stream.js';
import type { Ranger, Scene } from '../ranger.js';
import { NO_ECHO, micrometres } from '../ranger.js';
import type { RangerSensor } from '../schema.js';
import type { SwitchingSettings } from '../switching/schema.js';
import { Switch } from '../switching/switch.js';
import { noiseTail } from './noise-tail.js';
import { Struck } from './struck.js';

/** An idle door: nobody in the scene. */
export const NOBODY: Scene = { count: 0, capsules: new Float64Array(0), clothing: new Float64Array(0) };

/** Times, microseconds, between which somebody may change what a ranger sees. */
export interface Attendance {
  readonly start_us: number;
  readonly end_us: number;
}

export class Slot<A extends Attendance = Attendance> {
  readonly switching: Switch;
  readonly settings: SwitchingSettings;
  /** What it sees of the idle door, metres. */
  readonly idle_m: number;
  /** Who is about, or soon will be. */
  readonly attending: A[] = [];
  /** Number of the next reading, from 0. */
  n = 0;
  /** Of the reading under way: when its turn began, what is seen, the uniform of its noise, and whether it is out of the ordinary. */
  start_us = 0;
  seen_m = 0;
  u = 0.5;
  befallen = false;
  /** Whether another burst was heard before its own echo. */
  heard = false;
  attended = false;
  /** The reading before, and what was seen at it. */
  last_um = NaN;
  lastSeen_m = NaN;
  /** From now on nothing befalls it but bodies: no noise, no stray, no drop-out, no burst of others. */
  noiseless = false;

  private readonly strays: Struck;
  private readonly dropouts: Struck;
  private readonly outliers: Struck;
  private readonly outlierShare: number;
  private readonly noise: Stream;
  private readonly strayPlaces: Stream;
  private readonly outlierPlaces: Stream;

  /**
   * @param stream the beam's stream of this replicate
   * @param clock_us no stray, drop-out or outlier begins after it
   */
  constructor(
    readonly door: number,
    readonly beam: number,
    readonly ranger: Ranger,
    sensor: RangerSensor,
    stream: Stream,
    private readonly clock_us: number,
  ) {
    const farthest_um = micrometres(sensor.range_m);
    this.switching = new Switch(sensor.switching, farthest_um);
    this.settings = sensor.switching;
    this.idle_m = ranger.sees(NOBODY);
    this.noise = stream.child('noise');
    this.strayPlaces = stream.child('stray place');
    this.outlierPlaces = stream.child('outlier place');
    this.strays = new Struck(sensor.stray_share, stream.child('stray'));
    this.dropouts = new Struck(sensor.dropout_share, stream.child('drop-out'));
    this.outlierShare = this.shareBeyond(farthest_um);
    this.outliers = new Struck(this.outlierShare, stream.child('outlier'));
  }

  /**
   * Begins a reading: who is seen, and what befalls it.
   *
   * While somebody is about, every reading has its noise. While nobody is, readings are free of noise but for those
   * rare ones whose noise alone would break the beam: so quiet time is the same reading again and again.
   *
   * @param scene who is about at the instant it sees; null for nobody
   */
  begin(start_us: number, scene: Scene | null): void {
    const { n, ranger } = this;
    this.start_us = start_us;
    this.attended = scene !== null;
    this.befallen = false;
    this.heard = false;
    this.u = 0.5;
    this.seen_m = scene === null ? this.idle_m : ranger.sees(scene);
    if (this.noiseless) return;
    if (start_us < this.clock_us) {
      if (this.dropouts.strikes(n)) {
        this.befallen = true;
        this.seen_m = Infinity;
      } else if (this.strays.strikes(n)) {
        const [from_m, to_m] = ranger.strays_m;
        this.befallen = true;
        this.seen_m = from_m + (to_m - from_m) * this.strayPlaces.at(this.strays.count);
      } else if (scene === null && this.outliers.strikes(n)) {
        this.befallen = true;
        this.u = this.outlierShare * this.outlierPlaces.at(this.outliers.count);
      }
    }
    if (scene !== null) this.u = this.noise.at(n);
  }

  /**
   * Ends a reading.
   *
   * @returns whole micrometres, or NO_ECHO
   */
  end(): number {
    this.n++;
    return this.befallen && this.seen_m === Infinity ? NO_ECHO : this.ranger.reading(this.seen_m, this.u);
  }

  /** Whether it has learnt a background that hides by its margin what the idle door really shows. */
  get misled(): boolean {
    const { ranger, settings, switching, idle_m } = this;
    if (settings.nearer_than_m !== undefined) return false;
    const idle_um = ranger.reading(idle_m, 0.5);
    return idle_um !== NO_ECHO && switching.background_um < idle_um - settings.margin_m * 1e6;
  }

  /** Nobody who was gone by an instant is looked for any more: instants never go back. */
  forget(pose_us: number): void {
    const { attending } = this;
    let kept = 0;
    for (const one of attending) if (one.end_us >= pose_us) attending[kept++] = one;
    while (attending.length > kept) attending.pop();
  }

  /** When the first of those who are about, or soon will be, begins to matter; Infinity without any. */
  expected_us(): number {
    let first_us = Infinity;
    for (const { start_us } of this.attending) if (start_us < first_us) first_us = start_us;
    return first_us;
  }

  /** How many readings from the next one on are sure to be those of the idle door. */
  quietReadings(): number {
    const { n } = this;
    for (const struck of [this.strays, this.dropouts, this.outliers]) struck.strikes(n);
    return Math.min(this.strays.next, this.dropouts.next, this.outliers.next) - n;
  }

  /** Chance that noise alone takes a reading of the idle door past the switching point. */
  private shareBeyond(farthest_um: number): number {
    const { ranger, switching, idle_m } = this;
    const rest_um = ranger.reading(idle_m, 0.5);
    const background_um = rest_um === NO_ECHO ? farthest_um : rest_um;
    const breaks = (u: number): boolean => switching.nearAtRest(ranger.reading(idle_m, u), background_um);
    // A door that is broken when idle stays so: noise that would clear it for a moment is left out.
    return breaks(0.5) ? 0 : noiseTail(breaks, 80);
  }
}
