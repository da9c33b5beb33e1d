/**
 * Count vectors with weights, each vector once: what the likelihood ledger keeps of a house.
 *
 * Flat arrays that grow and are used again, and a hash that follows a move of one person by one addition: adding costs
 * some tens of nanoseconds and allocates nothing once the arrays have grown.
 */
export class VectorSet {
  size = 0;
  weights: Float64Array;
  /** Persons in all rooms of each vector. */
  sums: Int32Array;
  private rows: Int32Array;
  private hashes: Int32Array;
  private table: Int32Array;
  private readonly factors: Int32Array;

  constructor(
    private readonly rooms: number,
    private capacity = 64,
  ) {
    this.weights = new Float64Array(capacity);
    this.sums = new Int32Array(capacity);
    this.rows = new Int32Array(capacity * rooms);
    this.hashes = new Int32Array(capacity);
    this.table = new Int32Array(4 * capacity).fill(-1);
    this.factors = Int32Array.from({ length: rooms }, (_, room) => Math.imul(room + 1, 0x9e3779b1) | 1);
  }

  clear(): void {
    this.size = 0;
    this.table.fill(-1);
  }

  /** Persons in a room of vector `i`. */
  count(i: number, room: number): number {
    return this.rows[i * this.rooms + room]!;
  }

  /** The first vector. */
  begin(counts: readonly number[]): void {
    this.clear();
    let hash = 0;
    let sum = 0;
    for (const [room, count] of counts.entries()) {
      this.rows[room] = count;
      hash = (hash + Math.imul(count, this.factors[room]!)) | 0;
      sum += count;
    }
    this.hashes[0] = hash;
    this.sums[0] = sum;
    this.weights[0] = 1;
    this.table[this.slotOf(hash)] = 0;
    this.size = 1;
  }

  /** Adds weight to vector `p` of `of` after one person has gone from room `from` to room `to`; −1 is the outside. */
  add(of: VectorSet, p: number, from: number, to: number, weight: number): void {
    const { rooms, table } = this;
    let hash = of.hashes[p]!;
    if (from >= 0) hash = (hash - this.factors[from]!) | 0;
    if (to >= 0) hash = (hash + this.factors[to]!) | 0;
    let slot = this.slotOf(hash);
    for (let i = table[slot]!; i >= 0; i = table[slot]!) {
      if (this.hashes[i] === hash && this.same(i, of, p, from, to)) {
        this.weights[i]! += weight;
        return;
      }
      slot = (slot + 1) & (table.length - 1);
    }
    if (this.size === this.capacity) {
      this.grow();
      return this.add(of, p, from, to, weight);
    }
    const i = this.size;
    table[slot] = i;
    this.append(of, p, weight);
    const at = i * rooms;
    if (from >= 0) this.rows[at + from]!--;
    if (to >= 0) this.rows[at + to]!++;
    this.hashes[i] = hash;
    this.sums[i] = of.sums[p]! + (from < 0 ? 1 : 0) - (to < 0 ? 1 : 0);
  }

  /** Adds vector `p` of `of` as it is, without looking whether it is here: a set filled so is not added to otherwise. */
  append(of: VectorSet, p: number, weight: number): void {
    if (this.size === this.capacity) this.grow();
    const i = this.size++;
    const { rooms } = this;
    const at = i * rooms;
    const other = p * rooms;
    const into = this.rows;
    const out = of.rows;
    for (let room = 0; room < rooms; room++) into[at + room] = out[other + room]!;
    this.hashes[i] = of.hashes[p]!;
    this.weights[i] = weight;
    this.sums[i] = of.sums[p]!;
  }

  private same(i: number, of: VectorSet, p: number, from: number, to: number): boolean {
    const { rooms } = this;
    const at = i * rooms;
    const other = p * rooms;
    for (let room = 0; room < rooms; room++) {
      const moved = (room === to ? 1 : 0) - (room === from ? 1 : 0);
      if (this.rows[at + room] !== of.rows[other + room]! + moved) return false;
    }
    return true;
  }

  private slotOf(hash: number): number {
    const mixed = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
    return (mixed ^ (mixed >>> 13)) & (this.table.length - 1);
  }

  private grow(): void {
    const { weights, sums, rows, hashes } = this;
    this.capacity *= 2;
    this.weights = new Float64Array(this.capacity);
    this.sums = new Int32Array(this.capacity);
    this.rows = new Int32Array(this.capacity * this.rooms);
    this.hashes = new Int32Array(this.capacity);
    this.weights.set(weights);
    this.sums.set(sums);
    this.rows.set(rows);
    this.hashes.set(hashes);
    this.table = new Int32Array(4 * this.capacity).fill(-1);
    for (let i = 0; i < this.size; i++) {
      let slot = this.slotOf(hashes[i]!);
      while (this.table[slot]! >= 0) slot = (slot + 1) & (this.table.length - 1);
      this.table[slot] = i;
    }
  }
}

/** The k-th largest of the first `n` values, k from 1; changes their order. */
export function kthLargest(values: Float64Array, n: number, k: number): number {
  let low = 0;
  let high = n - 1;
  const wanted = k - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! > pivot) i++;
      while (values[j]! < pivot) j--;
      if (i <= j) {
        const value = values[i]!;
        values[i++] = values[j]!;
        values[j--] = value;
      }
    }
    if (wanted <= j) high = j;
    else if (wanted >= i) low = i;
    else break;
  }
  return values[wanted]!;
}
