/**
 * The light barriers of one door over the clock: bodies' shadows in, edges out, noise between.
 *
 * A receiver is dark while every path that reaches it is covered. Noise is keyed by (body) or (visit, beam, path and
 * number of that visit's own break), never by the order of draws, so that a change elsewhere moves none of it.
 */
import { poissonGap } from '../../engine/distributions.js';
import { forkOf } from '../../engine/fork.js';
import type { Stream } from '../../engine/stream.js';
import { HOUR_US } from '../../engine/time.js';
import { addInterval, intersect } from '../../geometry/intervals.js';
import type { BeamPath, DoorSensors, Shadow } from '../door-sensors.js';
import type { Edge } from '../edge.js';
import type { MountedBarrier } from '../mounted.js';
import { pathsOf } from './paths.js';
import { Response } from './response.js';

export class Barriers implements DoorSensors {
  readonly paths: readonly BeamPath[];
  private readonly receivers: readonly Receiver[];
  /** Edges not given out yet, in order of time, then beam; few. */
  private waiting: Edge[] = [];
  /** What the last read saw. */
  private levels = 0;

  /**
   * @param stream the door's sensor stream of this replicate
   * @param clock_us end of the clock: no spurious break begins after it, however long visits under way last
   */
  constructor(beams: readonly MountedBarrier[], stream: Stream, clock_us = Infinity) {
    this.paths = pathsOf(beams);
    // One set of clothes for all beams: who is hidden from one is hidden from the others.
    const shiny = stream.child('shiny');
    this.receivers = beams.map((beam, i) => {
      const own = stream.child('beam', beam.name);
      return new Receiver(beam, i, this.paths, own, shiny, clock_us, (edge) => this.keep(edge));
    });
  }

  episode(shadows: readonly Shadow[]): void {
    for (const receiver of this.receivers) receiver.episode(shadows);
  }

  /** The same barriers at this moment, to go on another way. @param noise false: from now on nothing befalls them but bodies */
  fork(noise: boolean): Barriers {
    const copy = forkOf(this, [Barriers, Receiver, Response]) as Barriers;
    for (const receiver of copy.receivers) receiver.goOn((edge) => copy.keep(edge), noise);
    return copy;
  }

  read(at_us: number): number {
    for (const edge of this.edgesUntil(at_us + 1)) {
      this.levels = edge.level === 1 ? this.levels | (1 << edge.beam) : this.levels & ~(1 << edge.beam);
    }
    return this.levels;
  }

  edgesUntil(until_us: number): readonly Edge[] {
    for (const receiver of this.receivers) receiver.advance(until_us);
    const { waiting } = this;
    let n = 0;
    while (n < waiting.length && (waiting[n] as Edge).time_us < until_us) n++;
    if (n === 0) return NONE;
    this.waiting = waiting.slice(n);
    waiting.length = n;
    return waiting;
  }

  /** Receivers give their edges in order; only neighbours in time need to be put in order among each other. */
  private keep(edge: Edge): void {
    const { waiting } = this;
    let i = waiting.length;
    for (; i > 0 && comesAfter(waiting[i - 1] as Edge, edge); i--) waiting[i] = waiting[i - 1] as Edge;
    waiting[i] = edge;
  }
}
const NONE: Edge[] = [];

function comesAfter(a: Edge, b: Edge): boolean {
  return a.time_us > b.time_us || (a.time_us === b.time_us && a.beam > b.beam);
}

class Receiver {
  private readonly own: readonly number[];
  private readonly response: Response;
  private nextSpurious_us: number;
  private spuriousMade = 0;
  private readonly missed: Stream;
  private readonly spurious: Stream;

  constructor(
    private beam: MountedBarrier,
    index: number,
    paths: readonly BeamPath[],
    stream: Stream,
    private readonly shiny: Stream,
    private readonly clock_us: number,
    emit: (edge: Edge) => void,
  ) {
    this.own = paths.flatMap((path, i) => (path.receiver === index ? [i] : []));
    this.response = new Response(beam.sensor.response_ms * 1000, beam.index, emit);
    this.missed = stream.child('missed');
    this.spurious = stream.child('spurious');
    this.nextSpurious_us = this.gap();
  }

  /** Of a fork: gives its edges to somebody else, and perhaps has no noise any more. */
  goOn(emit: (edge: Edge) => void, noise: boolean): void {
    this.response.emit = emit;
    if (noise) return;
    this.nextSpurious_us = Infinity;
    this.beam = { ...this.beam, sensor: { ...this.beam.sensor, missed_share: 0, shiny_share: 0 } };
  }

  episode(shadows: readonly Shadow[]): void {
    const dark = this.darkness(shadows);
    for (let i = 0; i < dark.length; i += 2) {
      const start = dark[i] as number;
      this.spuriousUntil(start);
      if (this.sees(start, shadows)) this.response.push(start, dark[i + 1] as number);
    }
  }

  advance(until_us: number): void {
    this.spuriousUntil(until_us);
    this.response.settle(until_us);
  }

  /** When no light arrives: every path to this receiver is covered by some body. */
  private darkness(shadows: readonly Shadow[]): readonly number[] {
    let dark: readonly number[] | null = null;
    for (const path of this.own) {
      const covered = this.covered(path, shadows);
      dark = dark === null ? covered : intersect(dark, covered);
    }
    return dark ?? [];
  }

  private covered(path: number, shadows: readonly Shadow[]): readonly number[] {
    const { layout, shiny_share } = this.beam.sensor;
    const seen =
      layout === 'reflector' && shiny_share > 0
        ? shadows.filter((shadow) => this.shiny.nth(shadow.body).at(0) >= shiny_share)
        : shadows;
    if (seen.length === 1) return (seen[0] as Shadow).breaks[path] as readonly number[];
    const joined: number[] = [];
    for (const shadow of seen) {
      const breaks = shadow.breaks[path] as readonly number[];
      for (let i = 0; i < breaks.length; i += 2) addInterval(joined, breaks[i] as number, breaks[i + 1] as number);
    }
    return joined;
  }

  /** Whether a true break is reported; it belongs to the visit whose shadow begins it. */
  private sees(start_us: number, shadows: readonly Shadow[]): boolean {
    const { missed_share } = this.beam.sensor;
    if (missed_share === 0) return true;
    for (const { visit, breaks } of shadows) {
      for (const [k, path] of this.own.entries()) {
        const at = (breaks[path] as readonly number[]).indexOf(start_us);
        // Starts stand at even places: with one path a visit's breaks are numbered 0, 1, 2, …
        if (at >= 0) return this.missed.nth(visit).at((at / 2) * this.own.length + k) >= missed_share;
      }
    }
    throw new Error('a break begins with nobody in the beam');
  }

  private spuriousUntil(until_us: number): void {
    const end_us = Math.min(until_us, this.clock_us);
    while (this.nextSpurious_us < end_us) {
      const start = this.nextSpurious_us;
      this.response.push(start, start + this.beam.sensor.spurious_ms * 1000);
      this.nextSpurious_us = start + this.gap();
    }
  }

  private gap(): number {
    return poissonGap(this.spurious.at(this.spuriousMade++), this.beam.sensor.spurious_per_hour / HOUR_US);
  }
}
