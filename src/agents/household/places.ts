/** From the words of an itinerary to rooms of the plan. */
import { OUTSIDE } from '../outside.js';
import type { Routes } from './route.js';

export interface HouseRoom {
  readonly name: string;
  /** What it is for, if anybody knows. */
  readonly use: string | null;
}

export class Places {
  constructor(
    private readonly rooms: readonly HouseRoom[],
    private readonly routes: Routes,
  ) {}

  /** Rooms a word may mean: the one of that name, or all of that use; outside is outside; empty when there is none. */
  all(word: string): readonly number[] {
    if (word === 'outside') return [OUTSIDE];
    const named = this.rooms.findIndex((room) => room.name === word);
    if (named >= 0) return [named];
    return this.rooms.flatMap((room, i) => (room.use === word ? [i] : []));
  }

  /** The room of a word that is fewest doors away, the first of equals; null where there is none that can be reached. */
  nearest(word: string, from: number): number | null {
    let best: number | null = null;
    let fewest = Infinity;
    for (const room of this.all(word)) {
      const doors = this.routes.way(from, room)?.length ?? Infinity;
      if (doors < fewest) [best, fewest] = [room, doors];
    }
    return best;
  }
}

/** Use of a room: as stated, or as its name says. */
export function useOf(
  room: { readonly name: string; readonly use?: string | undefined },
  uses: readonly string[],
): string | null {
  return room.use ?? (uses.includes(room.name) ? room.name : null);
}
