/** Rooms of an outline as itineraries know them: by name or use, and which can be walked to from which. */
import { Places, useOf } from '../../agents/household/places.js';
import { Routes } from '../../agents/household/route.js';
import { OUTSIDE as OUT } from '../../agents/outside.js';
import { ROOM_USES } from '../../agents/schema.js';
import { OUTSIDE, type Outline } from './outline.js';

export interface HousePlaces {
  readonly names: readonly string[];
  /** Whether a word names a room, or a use that some room has, or outside. */
  has(word: string): boolean;
  /** The first room of a word, or null. */
  first(word: string): number | null;
  name(room: number): string;
  canWalk(from: number, word: string): boolean;
  reachedFromOutside(word: string): boolean;
  /** Rooms a word may mean. */
  all(word: string): readonly number[];
  /** Doors on the way to the nearest room of a word; empty where there is none. */
  doorsTo(from: number, word: string): readonly number[];
}

/** Null where rooms or doors can't be read. */
export function placesOf(outline: Outline): HousePlaces | null {
  const rooms = outline.rooms ?? [];
  const doors = outline.doors ?? [];
  if (rooms.length === 0 || rooms.some((room) => room?.name === undefined)) return null;
  const names = rooms.map((room) => room?.name as string);
  const index = (name: string | undefined): number => (name === OUTSIDE ? OUT : names.indexOf(name ?? ''));
  const sides = doors.map((door) => ({ from: index(door?.from), to: index(door?.to) }));
  const readable = doors.every((door) =>
    [door?.from, door?.to].every((name) => name !== undefined && (name === OUTSIDE || names.includes(name))),
  );
  if (!readable) return null;
  const routes = new Routes(rooms.length, sides);
  const places = new Places(
    rooms.map((room, i) => ({
      name: names[i] as string,
      use: useOf({ name: names[i] as string, use: room?.use }, ROOM_USES),
    })),
    routes,
  );
  return {
    names,
    has: (word) => places.all(word).length > 0,
    first: (word) => places.all(word)[0] ?? null,
    name: (room) => (room === OUT ? OUTSIDE : (names[room] ?? '')),
    canWalk: (from, word) => places.nearest(word, from) !== null,
    reachedFromOutside: (word) => places.nearest(word, OUT) !== null,
    all: (word) => places.all(word),
    doorsTo: (from, word) => {
      const goal = places.nearest(word, from);
      return goal === null ? [] : (routes.way(from, goal) ?? []);
    },
  };
}
