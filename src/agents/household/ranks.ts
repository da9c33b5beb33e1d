/** In which order those who go together come through a doorway: in twos where two fit, otherwise one behind the other. */
import type { Body } from '../body.js';
import type { Opening } from '../motion/passage.js';
import { fitsAbreast } from '../walkers.js';

/** One member's place: whom the rank consists of, and which of them it is. */
export interface Place<B> {
  readonly rank: readonly [B] | readonly [B, B];
  readonly at: 0 | 1;
}

/** @param abreast whether they walk in twos at all @returns a place for each body, in order */
export function placesInRanks<B extends Pick<Body, 'breadth_m'>>(
  bodies: readonly B[],
  opening: Opening,
  abreast: boolean,
): readonly Place<B>[] {
  const places: Place<B>[] = [];
  for (let one = bodies[0]; one !== undefined; one = bodies[places.length]) {
    const next = bodies[places.length + 1];
    if (abreast && next !== undefined && fitsAbreast(one, next, opening)) {
      const rank = [one, next] as const;
      places.push({ rank, at: 0 }, { rank, at: 1 });
    } else places.push({ rank: [one], at: 0 });
  }
  return places;
}
