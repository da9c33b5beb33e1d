/** What a body does in a doorway, by the kind of its passage. */
import type { Stream } from '../engine/stream.js';
import type { Body } from './body.js';
import type { Opening, Passage } from './motion/passage.js';
import { linger, through, turnBack } from './motion/passage.js';
import { reachThrough } from './motion/reaching.js';
import { petLinger, petThrough, petTurnBack } from './pets/passage.js';
import type { PassageKind } from './schema.js';

/** A body's passage of a kind; what has no legs only goes through. `x_m` sets its place across the opening. */
export function passageOf(
  kind: PassageKind,
  body: Body,
  opening: Opening,
  backward: boolean,
  chance: Stream,
  x_m?: number,
): Passage {
  if (body.sort === 'pet') {
    const pass = kind === 'turn-back' ? petTurnBack : kind === 'linger' ? petLinger : petThrough;
    return pass(body, opening, backward, chance);
  }
  if (body.step > 0 && kind === 'turn-back') return turnBack(body, opening, backward, chance);
  if (body.step > 0 && kind === 'linger') return linger(body, opening, backward, chance);
  if (body.step > 0 && kind === 'reach') return reachThrough(body, opening, backward, chance);
  return through(body, opening, backward, chance, x_m);
}

/** Whether whoever does this stops in the opening. */
export function stops(kind: PassageKind): boolean {
  return kind === 'turn-back' || kind === 'linger' || kind === 'reach';
}

/** Middle of the left and of the right half of what two abreast take up, as they see it. */
export function abreastPlace(i: number, bodies: readonly Body[], width_m: number): number {
  const [left, right] = bodies as readonly [Body, Body];
  const gap = (width_m - left.breadth_m - right.breadth_m) / 3;
  return i === 0 ? gap + left.breadth_m / 2 : width_m - gap - right.breadth_m / 2;
}
