/**
 * The height ladder: the same people, one after the other, past beams at a dozen heights.
 *
 * Which height? is the builder's first question. Adults, children and a test rod go through alone and do not meet, so
 * what differs from rung to rung is the height and nothing else: the same bodies, steps, polling and sensor noise.
 * Spurious breaks are left out: they come with time, not with height.
 */
import type { Walker } from '../agents/schema.js';
import type { AnyLogic } from '../counter/host.js';
import type { OutsideLogics } from '../counter/make-logic.js';
import { Stream } from '../engine/stream.js';
import type { Design, DesignBeam, DesignDoor } from '../scenario/schema.js';
import { wrongOf } from '../score/door-counts.js';
import { learningOf_us, restAfter_us, runAlone, spacedOut } from './alone.js';
import { logicsAt } from './logics-at.js';
import type { PartyAlone } from './parties.js';
import { partiesAlone } from './parties.js';
import type { Sensor } from '../sensors/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';

export interface LadderCell {
  /** Name of the walker. */
  readonly who: string;
  /** Person-crossings. */
  readonly crossings: number;
  /** Breaks the controller sees per crossing, mean of all beams. */
  readonly breaks_per_crossing: number;
  readonly missed_per_100: number;
  readonly extra_per_100: number;
  readonly reversed_per_100: number;
  /** Sum of missed, extra, reversed and invented. */
  readonly wrong_per_100: number;
}

/** How a door would do with its beams at one height. */
export interface LadderRow {
  /** Height of all beams above the floor, level; of a design whose beams differ or tilt, the mean of their ends. */
  readonly height_m: number;
  /** The design's own height: its beams as they are. */
  readonly own: boolean;
  /** False where the design's own beams differ in height or tilt. */
  readonly level: boolean;
  /** One per walker. */
  readonly cells: readonly LadderCell[];
}

/** Which heights, and how many people. */
export interface LadderOptions {
  /** Crossings per walker and height, 200 by default. */
  readonly crossings?: number;
  /** Instead of adult, child and test rod: names with descriptions. */
  readonly walkers?: Readonly<Record<string, Walker>>;
  /** Instead of the dozen heights, metres; the design's own is not added. */
  readonly heights_m?: readonly number[];
  /** Gives the logics that are code of the user's own. */
  readonly outside?: OutsideLogics | undefined;
}

/** Closest together where it matters most, between a child's head and a man's hip. */
const RUNGS_M = [0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95, 1.1, 1.25, 1.4, 1.6, 1.8] as const;
const HIGHEST_M = 1.8;
const STEP_CM = 5;

/** The body whose results theory knows: as deep as a trunk, of one man's height, at a brisk indoor pace. */
export const LADDER_ROD = {
  kind: 'test-rod',
  diameter_m: 0.3,
  height_m: 1.8,
  speed_mps: 1,
  persons: 1,
} as const satisfies Walker;

/**
 * Counts of the design's first logic over a ladder of heights. Takes about 0.02 ms a crossing and height.
 *
 * @throws {RangeError} when the design has no logic
 */
export function heightLadder(design: Design, door: DesignDoor, options: LadderOptions = {}): LadderRow[] {
  const choice = design.logics[0];
  if (!choice) throw new RangeError('heightLadder: the design has no logic');
  const logic = logicsAt(design, door, options.outside)[0] as AnyLogic;
  const stream = Stream.root(String(design.seed)).child('ladder', door.name);
  const walkers: Readonly<Record<string, Walker>> = options.walkers ?? { ...design.walkers, 'test rod': LADDER_ROD };
  const names = options.walkers ? Object.keys(options.walkers) : ['adult', 'child', 'test rod'];
  const rest_us = restAfter_us(choice, logic);
  const from_us = learningOf_us(design);
  const crowds = names.map((who) => crowdOf(door, walkers, who, options.crossings ?? 200, from_us, rest_us, stream));

  const own_m = ownHeight(door);
  // What looks down from the lintel has one height only.
  const hangs = door.beams.some(({ mount }) => mount === 'lintel');
  const heights = hangs ? [own_m] : (options.heights_m ?? rungs(door.height_m, own_m));
  return heights.map((height_m) => {
    const own = height_m === own_m;
    const mounted = own ? withoutSpurious(design, door) : withoutSpurious(design, atHeight(door, height_m));
    return {
      height_m,
      own,
      level: !own || isLevel(door),
      cells: crowds.map((crowd, w) => runCrowd(mounted, logic, crowd, names[w] as string, stream)),
    };
  });
}

/** The mean of the beams' ends. */
function ownHeight(door: DesignDoor): number {
  const ends = door.beams.flatMap((beam) => [beam.height_m, beam.far_height_m ?? beam.height_m]);
  const mean = ends.reduce((sum, end) => sum + end, 0) / ends.length;
  // Free of the last bit's dust, so that level beams have the height the user typed.
  return Math.round(mean * 1e6) / 1e6;
}

function isLevel(door: DesignDoor): boolean {
  const height_m = door.beams[0]?.height_m;
  return door.beams.every((beam) => beam.height_m === height_m && (beam.far_height_m ?? height_m) === height_m);
}

/**
 * A dozen heights from 0.10 m to 1.80 m; under a lower lintel all are lowered alike, to whole 5 cm. The nearest gives
 * way to the design's own.
 */
export function rungs(lintel_m: number, own_m: number): number[] {
  const scale = Math.min(1, lintel_m / HIGHEST_M);
  // Whole centimetres divided last, so that 0.35 is the number a user would type.
  const heights = RUNGS_M.map((height) => (Math.round((100 * height * scale) / STEP_CM) * STEP_CM) / 100);
  if (scale < 1) heights[heights.length - 1] = lintel_m;
  let nearest = 0;
  heights.forEach((height, i) => {
    if (Math.abs(height - own_m) < Math.abs((heights[nearest] as number) - own_m)) nearest = i;
  });
  heights[nearest] = own_m;
  return heights;
}

function crowdOf(
  door: DesignDoor,
  walkers: Readonly<Record<string, Walker>>,
  who: string,
  count: number,
  from_us: number,
  rest_us: number,
  stream: Stream,
): PartyAlone[] {
  const own = stream.child('crowd', who);
  const parties = partiesAlone(door, walkers, { who, kind: 'through', forward_share: 0.5 }, count, own);
  return spacedOut(parties, from_us, rest_us, own.child('clock'));
}

interface Mounted {
  readonly design: Design;
  readonly door: DesignDoor;
}

function atHeight(door: DesignDoor, height_m: number): DesignDoor {
  const level = (beam: DesignBeam): DesignBeam => ({
    ...beam,
    height_m,
    ...(beam.far_height_m !== undefined && { far_height_m: height_m }),
  });
  return { ...door, beams: door.beams.map(level) };
}

function withoutSpurious(design: Design, door: DesignDoor): Mounted {
  const names = design.doors.flatMap(({ beams }) => beams.map(({ sensor }) => sensor));
  const sensors = Object.fromEntries(names.map((name) => [name, quiet(sensorNamed(design, name))]));
  // The other doors stay: their rangers take their turns, idle as they are.
  const doors = design.doors.map((one) => (one.name === door.name ? door : one));
  return { design: { ...design, sensors, doors }, door };
}

/** The same sensor without what it says of nobody. */
function quiet(sensor: Sensor): Sensor {
  if (sensor.kind === 'light-barrier') return { ...sensor, spurious_per_hour: 0 };
  return { ...sensor, stray_share: 0 };
}

function runCrowd(
  { design, door }: Mounted,
  logic: AnyLogic,
  crowd: readonly PartyAlone[],
  who: string,
  stream: Stream,
): LadderCell {
  const { logics, breaks } = runAlone(design, door, logic, crowd, stream.child('noise', who));
  const total = (logics[0] as (typeof logics)[number]).total;
  const per = (n: number) => (total.crossings > 0 ? n / total.crossings : 0);
  const per100 = (n: number) => per(100 * n);
  return {
    who,
    crossings: total.crossings,
    breaks_per_crossing: per(breaks.reduce((sum, n) => sum + n, 0) / Math.max(1, breaks.length)),
    missed_per_100: per100(total.missed),
    extra_per_100: per100(total.extra),
    reversed_per_100: per100(total.reversed),
    wrong_per_100: per100(wrongOf(total)),
  };
}
