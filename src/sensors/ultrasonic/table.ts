/** A function kept as a table with straight lines between: what is worked out once is only looked up in every reading. */
export class Table {
  private readonly values: Float64Array;
  private readonly perUnit: number;

  /** Table of `of` from 0 to `to` in equal cells. */
  constructor(
    readonly to: number,
    readonly cells: number,
    of: (x: number) => number,
  ) {
    this.perUnit = cells / to;
    this.values = Float64Array.from({ length: cells + 1 }, (_, i) => of((i * to) / cells));
  }

  /** Value at `x`, at least 0; past the end the last value holds. */
  at(x: number): number {
    const place = x * this.perUnit;
    const i = place | 0;
    if (!(place < this.cells)) return this.values[this.cells]!;
    const low = this.values[i]!;
    return low + (this.values[i + 1]! - low) * (place - i);
  }

  /** Value at the start of a cell. */
  node(i: number): number {
    return this.values[i]!;
  }
}

/** Rangers of a house are mostly alike, and runs make them again and again: the last tables made are kept. */
const MOST_KEPT = 64;
const tables = new Map<string, Table>();

/** The table of a name, made once; a pure function of its name. */
export function keptTable(name: string, make: () => Table): Table {
  let table = tables.get(name);
  if (!table) {
    table = make();
    tables.set(name, table);
    const [oldest] = tables.keys();
    if (tables.size > MOST_KEPT && oldest !== undefined) tables.delete(oldest);
  }
  return table;
}
