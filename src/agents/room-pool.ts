/** Who is where: rooms give out those who live in them and take them back, so that nobody appears or vanishes. */
import type { Resident } from './party.js';
import { personsOf } from './party.js';
import type { Walker } from './schema.js';
import { THROUGH_ONLY, isPet } from './schema.js';

/** People on their feet go in each other's place, rods in a rod's, wheelchair users in a wheelchair user's, pets in a pet's. */
const sortOf = (walker: Walker): string =>
  isPet(walker) ? 'pet' : THROUGH_ONLY[walker.kind] === undefined ? 'people' : walker.kind;

/** Those of one room who are free to set out: nobody who is only visiting and will return by themselves. */
export class RoomPool {
  private readonly known: Resident[] = [];

  /** @param unseen persons at the start who have not set out yet: they get a body when they first do */
  constructor(private unseen: number) {}

  /** Persons free to set out. */
  get free(): number {
    return this.unseen + this.known.reduce((sum, resident) => sum + resident.persons, 0);
  }

  /**
   * Takes one who is known under this name, or else somebody not seen yet, or else anybody of the sort: a rod never
   * goes in a person's place, which would ask it to turn or to stand, nor a person in a rod's or a pet's. Null when nobody is free.
   */
  take(who: string, walker: Walker): Resident | 'new' | null {
    const named = this.known.findIndex((resident) => resident.who === who);
    if (named >= 0) return this.known.splice(named, 1)[0] as Resident;
    const persons = personsOf(walker);
    if (this.unseen >= persons) {
      this.unseen -= persons;
      return 'new';
    }
    const alike = this.known.findIndex((resident) => sortOf(resident.walker) === sortOf(walker));
    return alike < 0 ? null : (this.known.splice(alike, 1)[0] as Resident);
  }

  giveBack(resident: Resident): void {
    this.known.push(resident);
  }
}
