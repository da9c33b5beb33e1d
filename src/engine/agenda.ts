/**
 * The event queue: what happens next, by time; equal times in the order they were put.
 *
 * A binary heap over parallel arrays, the key (time, sequence). `put` and `take` cost O(log n) and allocate nothing
 * once the arrays have grown.
 */
export class Agenda<T> {
  private times = new Float64Array(64);
  private sequences = new Float64Array(64);
  private readonly items: T[] = [];
  private nextSequence = 0;

  /** Events waiting. */
  get size(): number {
    return this.items.length;
  }

  /** Time of the next event; `Infinity` when nothing waits. */
  peekTime(): number {
    return this.items.length === 0 ? Infinity : (this.times[0] as number);
  }

  /**
   * Puts `item` at `time`, any number but NaN, in any unit as long as it is one.
   *
   * @throws {RangeError} when `time` is NaN
   */
  put(time: number, item: T): void {
    if (time !== time) throw new RangeError('Agenda.put: time is not a number');
    const n = this.items.length;
    if (n === this.times.length) this.grow();
    const { times, sequences, items } = this;
    const sequence = this.nextSequence++;
    items.push(item);
    // Later sequence, so among equals it stays below: only a strictly later parent gives way.
    let hole = n;
    while (hole > 0) {
      const parent = (hole - 1) >> 1;
      if ((times[parent] as number) <= time) break;
      times[hole] = times[parent] as number;
      sequences[hole] = sequences[parent] as number;
      items[hole] = items[parent] as T;
      hole = parent;
    }
    times[hole] = time;
    sequences[hole] = sequence;
    items[hole] = item;
  }

  /** Takes the next event off; `undefined` when nothing waits. Its time is what {@link peekTime} said before. */
  take(): T | undefined {
    const { times, sequences, items } = this;
    if (items.length === 0) return undefined;
    const first = items[0] as T;
    const last = items.pop() as T;
    const n = items.length;
    if (n === 0) return first;
    const time = times[n] as number;
    const sequence = sequences[n] as number;
    let hole = 0;
    for (;;) {
      let child = 2 * hole + 1;
      if (child >= n) break;
      if (child + 1 < n && this.isBefore(child + 1, times[child] as number, sequences[child] as number)) child++;
      if (!this.isBefore(child, time, sequence)) break;
      times[hole] = times[child] as number;
      sequences[hole] = sequences[child] as number;
      items[hole] = items[child] as T;
      hole = child;
    }
    times[hole] = time;
    sequences[hole] = sequence;
    items[hole] = last;
    return first;
  }

  /** Whether entry `at` comes before key (`time`, `sequence`). */
  private isBefore(at: number, time: number, sequence: number): boolean {
    const other = this.times[at] as number;
    return other < time || (other === time && (this.sequences[at] as number) < sequence);
  }

  private grow(): void {
    const times = new Float64Array(2 * this.times.length);
    const sequences = new Float64Array(2 * this.sequences.length);
    times.set(this.times);
    sequences.set(this.sequences);
    this.times = times;
    this.sequences = sequences;
  }
}
