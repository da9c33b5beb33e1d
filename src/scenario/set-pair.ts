/**
 * `doors.front.pair` and its keys in an assignment. In a design a pair is two beams, so whoever changes a pair changes
 * those: a whole pair takes the place of the door's beams, one key of it changes the keys of beams A and B it stands for.
 */
import { DEG, atan2 } from '../engine/arithmetic.js';
import { nearest } from '../engine/nearest.js';
import type { Problem } from './issue.js';
import { child, isPlainObject } from './key-path.js';
import { readPath } from './path.js';
import { beamsOfPair, wholeBeams } from './resolve.js';
import { type Design, type DesignDoor, pairSchema } from './schema.js';
import { checkShape } from './shape.js';

export interface Assignment {
  /** `doors.*.beams.A.height_m` */
  readonly path: string;
  readonly value: unknown;
}

/** Keys of a pair that both beams have as they stand. */
const OF_BOTH = ['sensor', 'height_m', 'tilt_deg'];

/** The assignment itself, or those of beams that one to a pair stands for. */
export function pairSpelt(
  design: unknown,
  path: string,
  value: unknown,
): { readonly assignments: readonly Assignment[] } | { readonly problem: Problem } {
  const [root, which, word, key, ...more] = path.split('.');
  if (root !== 'doors' || which === undefined || word !== 'pair' || more.length > 0)
    return { assignments: [{ path, value }] };
  const doors = readPath(design, `doors.${which}`);
  if (doors.problem) return { problem: doors.problem };
  const sensors = child(design, 'sensors') as Design['sensors'];
  const assignments: Assignment[] = [];
  for (const { value: door } of doors.matches) {
    // An earlier key may have put anything in a door's place: the design's own check tells of it.
    if (!isDoor(door)) continue;
    const own = `doors.${door.name}`;
    const whole = key === undefined ? value : key === 'mount' ? { ...pairOf(door), mount: value } : undefined;
    if (whole !== undefined) {
      const { data, findings } = checkShape(pairSchema, whole);
      if (data === null) return { problem: findings[0]!.problem };
      assignments.push({
        path: `${own}.beams`,
        value: wholeBeams(beamsOfPair(data, door.width_m), door.height_m, isPlainObject(sensors) ? sensors : {}),
      });
      continue;
    }
    const pair = pairOf(door);
    if (pair === null) return { problem: noPair(door) };
    if (OF_BOTH.includes(key!)) assignments.push({ path: `${own}.beams.*.${key}`, value });
    else if (key === 'spacing_m' && typeof value === 'number') assignments.push(...apart(own, door, value));
    else {
      const known = Object.keys(pairSchema.shape);
      return known.includes(key!)
        ? { problem: { code: 'wrong_type', expected: 'number', found: String(value), unit: 'm' } }
        : {
            problem: {
              code: 'unknown_path',
              segment: key!,
              within: `doors.${which}.pair`,
              known,
              nearest: nearest(key!, known),
            },
          };
    }
  }
  return { assignments };
}

/** Both beams moved along the walk, the door plane half-way; beams that look at each other go on doing so. */
function apart(own: string, door: DesignDoor, spacing_m: number): Assignment[] {
  const facing = door.beams[0]!.mount !== door.beams[1]!.mount && Boolean(door.beams[0]!.turn_deg);
  return ([-1, 1] as const).flatMap((side, b) => [
    { path: `${own}.beams.${b + 1}.at_m`, value: (side * spacing_m) / 2 },
    ...(facing
      ? [{ path: `${own}.beams.${b + 1}.turn_deg`, value: (-side * atan2(spacing_m, door.width_m)) / DEG }]
      : []),
  ]);
}

function isDoor(value: unknown): value is DesignDoor {
  const beams = isPlainObject(value) ? value['beams'] : undefined;
  return Array.isArray(beams) && beams.every((beam) => isPlainObject(beam));
}

/** A door's two beams as the pair they are; null where they are none. */
export function pairOf(door: DesignDoor): { sensor: string; spacing_m: number; height_m: number } | null {
  const [a, b, ...more] = door.beams;
  if (!a || !b || more.length > 0 || b.at_m <= a.at_m) return null;
  // Whole micrometres: half a spacing twice is the spacing.
  return { sensor: a.sensor, spacing_m: Math.round((b.at_m - a.at_m) * 1e6) / 1e6, height_m: a.height_m };
}

function noPair(door: DesignDoor): Problem {
  return {
    code: 'other',
    message: `the door ${door.name} has no pair: its beams are ${door.beams.map(({ name }) => name).join(', ')}`,
    hint: 'set the keys of its beams: `doors.NAME.beams.BEAM.KEY`',
  };
}
