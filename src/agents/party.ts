/** People on the move together. */
import type { Body } from './body.js';
import { LOAD_KINDS } from './loads/kinds.js';
import type { PassageKind, Walker } from './schema.js';

/** Somebody with a number: it keeps it, and so its body, for the whole replicate. */
export interface Resident {
  readonly number: number;
  readonly who: string;
  readonly walker: Walker;
  readonly persons: number;
  /** Room this one belongs to, or OUTSIDE for those who come and go. */
  readonly home: number;
  /** Visits made so far: the number of the next visit's stream. */
  trips: number;
  /** Their body, while they are out. */
  body: Body | null;
}

export interface Party {
  readonly door: number;
  readonly members: readonly Resident[];
  readonly forward: boolean;
  readonly kind: PassageKind;
  /** Index of the entry in the door's mix. */
  readonly entry: number;
  /** On the way back to where it came from. */
  readonly returning: boolean;
  /** Number of the arrival at its door: names the party's stream. */
  readonly arrival: number;
  /** Set out against the one that arrived, on the same number: draws of its own, so that it stays for a time of its own. */
  readonly opposite: boolean;
}

/** Persons a walker stands for. */
export function personsOf(walker: Walker): number {
  switch (walker.kind) {
    case 'test-rod':
      return walker.persons;
    case 'robot-vacuum':
    case 'dog':
    case 'cat':
      return 0;
    case 'wheelchair-user':
      return 1;
    default:
      return (walker.with_infant ? 2 : 1) + (walker.load === undefined ? 0 : LOAD_KINDS[walker.load].persons);
  }
}
