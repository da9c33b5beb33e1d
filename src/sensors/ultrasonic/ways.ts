/**
 * Ways by which one ranger's burst reaches another without touching a body: straight, by one reflection at floor or
 * lintel, and to and fro between the jambs. Mirrors are dealt with by image sources: the straight way from an image is
 * as long as the folded way from the source.
 */
import { levelOf } from './decibel.js';
import type { Pointing } from './hearing.js';
import { FLUSH_M } from './walls.js';

/** What a way's loudness depends on. Directivities one way, as power, over sin². */
export interface Passage {
  readonly source: Pointing;
  readonly listener: Pointing;
  /** Power of the burst at 1 m against the listener's threshold. */
  readonly gain: number;
  readonly absorption_db_per_m: number;
  readonly bounce_loss_db: number;
  readonly sourceBeam: (sin2: number) => number;
  readonly listenerBeam: (sin2: number) => number;
}

export interface Way {
  readonly length_m: number;
  /** Corners of the way: x, y, z of each, source to listener. */
  readonly corners: readonly number[];
}

/** Rounds to and fro are followed up to here, should nothing else end them. */
const MOST_BOUNCES = 64;

/** All ways that are loud enough while nobody is there. */
export function waysOf(
  passage: Passage,
  opening: { readonly width_m: number; readonly height_m: number },
  sameFrame: boolean,
): Way[] {
  const ways: Way[] = [];
  addWay(ways, passage, 'x', []);
  if (!sameFrame) return ways;
  for (const level of [0, opening.height_m]) addWay(ways, passage, 'z', [level]);
  for (const first of [0, 1]) {
    const planes: number[] = [];
    for (let bounces = 1; bounces <= MOST_BOUNCES; bounces++) {
      planes.push(((first + bounces) % 2) * opening.width_m);
      if (!addWay(ways, passage, 'x', planes)) break;
    }
  }
  return ways;
}

/**
 * Adds the way by reflection at parallel planes in turn, if it is loud enough.
 *
 * @returns whether further bounces could still be heard
 */
function addWay(ways: Way[], passage: Passage, axis: 'x' | 'z', planes: readonly number[]): boolean {
  const { source, listener } = passage;
  const d = axis === 'x' ? 'dx' : 'dz';
  // The image: mirrored place and axis.
  let place = source[axis];
  let turned = source[d];
  for (const plane of planes) {
    place = 2 * plane - place;
    turned = -turned;
  }
  const image = { ...source, [axis]: place, [d]: turned };
  const [x, y, z] = [listener.x - image.x, listener.y - image.y, listener.z - image.z];
  const length = Math.sqrt(x * x + y * y + z * z);
  // No way at all: its own burst straight back.
  if (length < FLUSH_M) return true;
  const plain_db =
    levelOf(passage.gain / (length * length)) -
    passage.absorption_db_per_m * length -
    passage.bounce_loss_db * planes.length;
  if (plain_db < 0) return false;
  const out = (image.dx * x + image.dy * y + image.dz * z) / length;
  const back = -(listener.dx * x + listener.dy * y + listener.dz * z) / length;
  // Nothing goes out or comes in from behind; so no plane that a transducer sits in is the first or last to reflect.
  if (!(out > 0) || !(back > 0)) return true;
  const beam = passage.sourceBeam(Math.max(0, 1 - out * out)) * passage.listenerBeam(Math.max(0, 1 - back * back));
  if (plain_db + levelOf(beam) >= 0) ways.push({ length_m: length, corners: cornersOf(passage, axis, planes) });
  return true;
}

/** Corners of the folded way: the share of the way at which it meets each plane is its share along the mirrored axis. */
function cornersOf({ source, listener }: Passage, axis: 'x' | 'z', planes: readonly number[]): number[] {
  const legs: number[] = [];
  let at = source[axis];
  for (const plane of [...planes, listener[axis]]) {
    legs.push(Math.abs(plane - at));
    at = plane;
  }
  const whole = legs.reduce((sum, leg) => sum + leg, 0);
  const corners = [source.x, source.y, source.z];
  let gone = 0;
  planes.forEach((plane, i) => {
    gone += legs[i]!;
    const share = gone / whole;
    const corner = {
      x: source.x + share * (listener.x - source.x),
      y: source.y + share * (listener.y - source.y),
      z: source.z + share * (listener.z - source.z),
      [axis]: plane,
    };
    corners.push(corner.x, corner.y, corner.z);
  });
  corners.push(listener.x, listener.y, listener.z);
  return corners;
}
