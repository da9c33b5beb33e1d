/**
 * What a ranger looks into, as a solid that widens along its axis, and its outline as seen from the front or from above.
 *
 * Cut by the opening and by the range the solid is convex, so its outline is the hull of its corners and of rays in it.
 */
import type { BeamLine, Point } from '../../geometry/beam-line.js';
import type { Sensor } from '../../sensors/schema.js';
import { speedOfSound } from '../../sensors/ultrasonic/air.js';
import { directivity, sizeInWaves } from '../../sensors/ultrasonic/piston.js';
import type { UltrasonicRanger } from '../../sensors/ultrasonic/schema.js';
import { hull, type Flat } from './hull.js';

/** Radius of what is looked into: `start_m` at the sensor, growing by `slope` per metre. */
export interface Sight {
  readonly start_m: number;
  readonly slope: number;
  readonly range_m: number;
}

/** Least and greatest coordinates of what is drawn, metres in the door's axes. */
export interface Box {
  readonly low: Point;
  readonly high: Point;
}

/** A cone wider than this is drawn as wide as this. */
const WIDEST_RAD = (80 * Math.PI) / 180;
const RINGS = 6;
const RAYS = 120;
const EDGE_STEPS = 200;

/** Of a light barrier null: its beam is as thin as its line. */
export function sightOf(sensor: Sensor, temperature_c: number): Sight | null {
  switch (sensor.kind) {
    case 'light-barrier':
      return null;
    case 'ultrasonic-ranger':
      return cone(halfPowerAngle(sensor, temperature_c), sensor.range_m);
    case 'time-of-flight-ranger':
      return cone((sensor.half_angle_deg * Math.PI) / 180, sensor.range_m);
    case 'triangulation-ranger':
      return {
        start_m: sensor.spot_diameter_m / 2,
        slope: sensor.spot_growth_m_per_m / 2,
        range_m: sensor.range_m,
      };
  }
}

const cone = (half_rad: number, range_m: number): Sight => ({
  start_m: 0,
  slope: Math.tan(Math.min(half_rad, WIDEST_RAD)),
  range_m,
});

/** Angle from the axis at which a burst has half the power it has on the axis, one way: radians, at most π/2. */
export function halfPowerAngle(sensor: UltrasonicRanger, temperature_c: number): number {
  const ka = sizeInWaves(sensor.frequency_khz * 1000, sensor.piston_radius_m, speedOfSound(temperature_c));
  // The first null of a piston is at 3.83; before it power only falls.
  let [low, high] = [0, Math.min(1, 3.8 / ka)];
  if (directivity(ka, sensor.shading_db, high * high) > 0.5) return Math.PI / 2;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (directivity(ka, sensor.shading_db, middle * middle) > 0.5) low = middle;
    else high = middle;
  }
  return Math.asin(low);
}

/** The axis as far as it is drawn: to its end, the range or the edge of the picture. */
export function drawnAxis({ from, to }: BeamLine, range_m: number, box: Box): BeamLine {
  const axis = unit(minus(to, from));
  const length = Math.min(range_m, lengthOf(minus(to, from)), exit(from, axis, box));
  return { from, to: along(from, axis, length) };
}

/** Outline of what is looked into, seen along y (front) or along z (from above); in order around it. */
export function outline(line: BeamLine, sight: Sight, box: Box, seen: 'front' | 'above'): Flat[] {
  const axis = unit(minus(line.to, line.from));
  const [u, v] = across(axis);
  const points: Point[] = [line.from];
  for (let ring = 0; ring <= RINGS; ring++) {
    for (let ray = 0; ray < RAYS; ray++) {
      const angle = (2 * Math.PI * ray) / RAYS;
      const share = ring / RINGS;
      const aside = along(along({ x: 0, y: 0, z: 0 }, u, share * Math.cos(angle)), v, share * Math.sin(angle));
      const start = within(along(line.from, aside, sight.start_m), box);
      const direction = unit(along(axis, aside, sight.slope));
      points.push(start, along(start, direction, Math.min(sight.range_m, exit(start, direction, box))));
    }
  }
  points.push(...edgePoints(box).filter((p) => contains(line.from, axis, sight, p)));
  return hull(points.map((p): Flat => (seen === 'front' ? [p.x, p.z] : [p.x, p.y])));
}

function contains(from: Point, axis: Point, sight: Sight, p: Point): boolean {
  const d = minus(p, from);
  const far = d.x * axis.x + d.y * axis.y + d.z * axis.z;
  const aside = Math.sqrt(Math.max(0, d.x * d.x + d.y * d.y + d.z * d.z - far * far));
  return far > 0 && aside <= sight.start_m + sight.slope * far && lengthOf(d) <= sight.range_m;
}

/** Points along the twelve edges of a box. */
function edgePoints({ low, high }: Box): Point[] {
  const ends = (key: keyof Point): number[] => [low[key], high[key]];
  const steps = (key: keyof Point): number[] =>
    Array.from({ length: EDGE_STEPS + 1 }, (_, i) => low[key] + ((high[key] - low[key]) * i) / EDGE_STEPS);
  const all = (xs: number[], ys: number[], zs: number[]): Point[] =>
    xs.flatMap((x) => ys.flatMap((y) => zs.map((z) => ({ x, y, z }))));
  return [
    ...all(steps('x'), ends('y'), ends('z')),
    ...all(ends('x'), steps('y'), ends('z')),
    ...all(ends('x'), ends('y'), steps('z')),
  ];
}

/** How far a ray that starts in a box goes until it leaves it. */
function exit(start: Point, direction: Point, { low, high }: Box): number {
  const reach = (key: keyof Point): number => {
    const towards = direction[key];
    if (Math.abs(towards) < 1e-12) return Number.POSITIVE_INFINITY;
    return ((towards > 0 ? high[key] : low[key]) - start[key]) / towards;
  };
  return Math.max(0, Math.min(reach('x'), reach('y'), reach('z')));
}

const within = (p: Point, { low, high }: Box): Point => ({
  x: Math.min(Math.max(p.x, low.x), high.x),
  y: Math.min(Math.max(p.y, low.y), high.y),
  z: Math.min(Math.max(p.z, low.z), high.z),
});

/** Two unit vectors at right angles to a unit vector and to each other. */
function across(axis: Point): [Point, Point] {
  const other = Math.abs(axis.y) < 0.9 ? { x: 0, y: 1, z: 0 } : { x: 1, y: 0, z: 0 };
  const u = unit(cross(axis, other));
  return [u, cross(axis, u)];
}

const cross = (a: Point, b: Point): Point => ({
  x: a.y * b.z - a.z * b.y,
  y: a.z * b.x - a.x * b.z,
  z: a.x * b.y - a.y * b.x,
});
const minus = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y, z: a.z - b.z });
const along = (p: Point, d: Point, t: number): Point => ({ x: p.x + t * d.x, y: p.y + t * d.y, z: p.z + t * d.z });
const lengthOf = (d: Point): number => Math.hypot(d.x, d.y, d.z);
function unit(d: Point): Point {
  const length = lengthOf(d);
  return { x: d.x / length, y: d.y / length, z: d.z / length };
}
