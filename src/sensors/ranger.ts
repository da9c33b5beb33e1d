/**
 * A ranger as the reading of it knows it: what it sees of posed bodies at one instant, and the number it makes of that.
 *
 * A kind is one module that makes a {@link Ranger} of its settings, its place and its surroundings. It holds no state
 * and draws nothing: the same scene and the same uniform always give the same reading, so that quiet times can be
 * jumped and any reading can be asked for again.
 */
import type { BeamLine } from '../geometry/beam-line.js';
import type { MountedRanger } from './mounted.js';
import type { Surroundings } from './surroundings.js';

/** A reading without echo. Readings with one are whole micrometres, at least 0. */
export const NO_ECHO = -1;

/** As whole micrometres: what readings and switching points are compared in. */
export function micrometres(metres: number): number {
  return Math.round(metres * 1e6);
}

/** Numbers per capsule in a scene: both ends of its axis and its radius. */
export const CAPSULE = 7;

/**
 * Capsules near one door at one instant, in the door's axes, metres. One object is kept and written over: nothing is
 * allocated per reading.
 */
export interface Scene {
  count: number;
  /** ax, ay, az, bx, by, bz, radius of each capsule. */
  capsules: Float64Array;
  /** Per capsule, what its body's clothes draw: uniform on (0, 1), the same for all capsules of a body and all sensors. */
  clothing: Float64Array;
}

/** Where a ranger is: the opening around it and its axis, in the door's axes. */
export interface RangerPlace {
  readonly mounted: MountedRanger;
  /** `zone_m`: bodies are looked for no further from the door plane, trunk axes that is. */
  readonly opening: { readonly width_m: number; readonly height_m: number; readonly zone_m: number };
  readonly surroundings: Surroundings;
  /** Where in its own rhythm a free-running sensor is when the clock starts: 0 to 1. */
  readonly phase: number;
}

export interface Ranger {
  /** From and to where along the walk a capsule's surface can change what it sees at all; metres, door axes. */
  readonly near_m: readonly [number, number];
  /** Heights between which it can, metres above the floor. */
  readonly heights_m: readonly [number, number];
  /** The instant it sees when its turn starts at `start_us`: before it for what was measured already, after it for what takes time. */
  poseTime(start_us: number): number;
  /** Most that {@link poseTime} is after the turn's start, microseconds, at least 0. */
  readonly latest_us: number;
  /** Most that it is before it: what was measured earlier and is held. Microseconds, at least 0. */
  readonly held_us: number;
  /** What it sees, without noise: metres of distance, Infinity when nothing comes back. An empty scene is the idle door. */
  sees(scene: Scene): number;
  /** How long its turn keeps the controller waiting for what it sees: whole microseconds, conversion included. */
  busy_us(seen_m: number): number;
  /**
   * The reading: noise, quantisation, the controller's own conversion to distance.
   * Never falls as `u` grows, {@link NO_ECHO} counting as furthest; `u` = 0.5 is the reading without noise.
   *
   * @param seen_m as {@link sees} gives it, or as heard from another ranger @param u uniform on (0, 1)
   * @returns whole micrometres or NO_ECHO
   */
  reading(seen_m: number, u: number): number;
  /** What strays lie between, evenly: metres, as seen. */
  readonly strays_m: readonly [number, number];
  /** What hears bursts of others; null for what makes no sound. */
  readonly ear: Ear | null;
}

/** The hearing of an ultrasonic ranger. */
export interface Ear {
  /** Speed of sound in the real air, m/s. */
  readonly speed_mps: number;
  /** Microseconds after its own burst before which it hears nothing (ringing), and after which it listens no more. */
  readonly window_us: readonly [number, number];
  /** Longest way, metres, on which a source's bursts are still heard; 0 for one it is deaf to. */
  farthest_m(source: BurstSource): number;
  /**
   * Lengths of the ways, metres, on which another's burst reaches this ear loud enough: straight, by one reflection at a
   * jamb, lintel or floor of the opening, and by each capsule of the scene; blocked ways left out.
   *
   * @param source the other's settings and axis, in this door's axes
   * @param least_m shorter ways are of no interest @param most_m nor are ways from this length on
   * @param out lengths are added here, in any order
   */
  arrivals(source: BurstSource, scene: Scene, least_m: number, most_m: number, out: number[]): void;
  /** What it would see of an arrival so long after its own burst: metres. */
  seenAfter(delay_us: number): number;
}

/** Microseconds that sound takes for a metre of its way. */
export function soundPerMetre_us({ speed_mps }: Ear): number {
  return 1e6 / speed_mps;
}

/** A burst's origin, in the listening door's axes. */
export interface BurstSource {
  readonly ranger: MountedRanger['sensor'] & { readonly kind: 'ultrasonic-ranger' };
  /** From the transducer along its axis; only the direction counts. */
  readonly axis: BeamLine;
  readonly sameFrame: boolean;
}
