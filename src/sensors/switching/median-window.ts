/** The last so many whole numbers, and their median: sorted as they come, in place. */
export class MedianWindow {
  private readonly ring: Int32Array;
  private readonly sorted: Int32Array;
  private next = 0;
  private filled = 0;
  private last = 0;
  /** How many of the latest were the same, up to the window's size. */
  private alike = 0;

  constructor(size: number) {
    this.ring = new Int32Array(size);
    this.sorted = new Int32Array(size);
  }

  get full(): boolean {
    return this.filled === this.ring.length;
  }

  /**
   * Takes the next number, and forgets the oldest when full.
   *
   * @returns false when the window, in order of time, is the same as before
   */
  push(value: number): boolean {
    const size = this.ring.length;
    // Shifted by one a window stays the same only if all of it is alike; the same numbers in another order won't do.
    if (value === this.last && this.alike === size) return false;
    this.alike = value === this.last ? this.alike + 1 : 1;
    this.last = value;

    let place = this.filled;
    if (this.full) {
      const oldest = this.ring[this.next]!;
      place = 0;
      while (this.sorted[place] !== oldest) place++;
    } else this.filled++;
    this.settle(place, value);

    this.ring[this.next] = value;
    this.next = this.next + 1 === size ? 0 : this.next + 1;
    return true;
  }

  /** The median of what came so far; of an even number the greater of the two in the middle. Needs one number at least. */
  median(): number {
    return this.sorted[this.filled >> 1]!;
  }

  /** Writes a value over a free place of the sorted copy, and moves it to where it belongs. */
  private settle(free: number, value: number): void {
    const { sorted, filled } = this;
    let place = free;
    while (place > 0 && sorted[place - 1]! > value) {
      sorted[place] = sorted[place - 1]!;
      place--;
    }
    while (place + 1 < filled && sorted[place + 1]! < value) {
      sorted[place] = sorted[place + 1]!;
      place++;
    }
    sorted[place] = value;
  }
}
