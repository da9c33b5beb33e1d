/** Who is where: rooms give out those who live in them and take them back, so that nobody appears or vanishes. */
import type { Resident } from './party.js';

/** Those of one room who are free to set out: nobody who is only visiting and will return by themselves. */
export class RoomPool {
  private readonly known: Resident[] = [];

  /** @param unseen persons at the start who have not set out yet: they get a body when they first do */
  constructor(private unseen: number) {}

  /** Persons free to set out. */
  get free(): number {
    return this.unseen + this.known.reduce((sum, resident) => sum + resident.persons, 0);
  }

  /** Takes one who is known under this name, or else somebody not seen yet, or else anybody; null when nobody is free. */
  take(who: string, personsOfNew: number): Resident | 'new' | null {
    const named = this.known.findIndex((resident) => resident.who === who);
    if (named >= 0) return this.known.splice(named, 1)[0] as Resident;
    if (this.unseen >= personsOfNew) {
      this.unseen -= personsOfNew;
      return 'new';
    }
    return this.known.shift() ?? null;
  }

  giveBack(resident: Resident): void {
    this.known.push(resident);
  }
}
