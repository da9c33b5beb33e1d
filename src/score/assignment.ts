/**
 * Least-cost assignment of rows to columns over a sparse list of allowed pairs; a row may stay alone at a price.
 *
 * Shortest augmenting paths, one row at a time, with potentials (the method of Kuhn and Munkres in the form of
 * R. Jonker and A. Volgenant, "A shortest augmenting path algorithm for dense and sparse linear assignment problems",
 * Computing 38, 1987, 325–340). Costs have two levels, compared one after the other; both are integers, so every sum is
 * exact. Cost: at most rows × (pairs + reached columns²), usually far less, because a path ends at the first free
 * column. The object is a workspace: use it again and again, it allocates only when a problem is larger than before.
 */
export class Assignment {
  /** After {@link solve}: the column of each row, or −1. */
  readonly columnOf: number[] = [];
  /** After {@link solve}: the row of each column, or −1. */
  readonly rowOf: number[] = [];
  rows = 0;
  columns = 0;

  private pairs = 0;
  /** Pairs of row r are those from `from[r]` up to `from[r + 1]`. */
  private readonly from: number[] = [0];
  private readonly pairColumn: number[] = [];
  private readonly pairCost: number[] = [];
  private readonly pairTie: number[] = [];

  private readonly rowCost: number[] = [];
  private readonly rowTie: number[] = [];
  private readonly columnCost: number[] = [];
  private readonly columnTie: number[] = [];

  private readonly pathCost: number[] = [];
  private readonly pathTie: number[] = [];
  private readonly pathRow: number[] = [];
  /** Columns reached by the present search; the first `settled` of them have been passed through. */
  private readonly reached: number[] = [];
  private reachedCount = 0;
  /** Number of the search that reached a column last. */
  private readonly reachedBy: number[] = [];
  private search = 0;

  /** Begins a new problem. */
  reset(columns: number): void {
    this.rows = 0;
    this.pairs = 0;
    this.columns = columns;
    this.search = 0;
    for (let j = 0; j < columns; j++) {
      this.rowOf[j] = -1;
      this.columnCost[j] = 0;
      this.columnTie[j] = 0;
      this.reachedBy[j] = 0;
    }
  }

  /** Allows the pair (row being added, column). Costs are integers from 0, below 2⁴⁹. */
  allow(column: number, cost: number, tie: number): void {
    const k = this.pairs++;
    this.pairColumn[k] = column;
    this.pairCost[k] = cost;
    this.pairTie[k] = tie;
  }

  /** Ends the row whose pairs have been allowed. */
  endRow(): void {
    this.columnOf[this.rows] = -1;
    this.from[++this.rows] = this.pairs;
  }

  /** Assigns all rows so that the sum of pair costs, and `alone` for each row without a column, is least. */
  solve(alone: number): void {
    for (let row = 0; row < this.rows; row++) this.insert(row, alone);
  }

  private insert(newRow: number, alone: number): void {
    const { reached, pathCost, pathTie, rowOf, rowCost, rowTie } = this;
    this.search++;
    this.reachedCount = 0;
    rowCost[newRow] = 0;
    rowTie[newRow] = 0;
    // The cheapest end so far: a reached row that gives up its column.
    let endCost = alone;
    let endTie = 0;
    let endRow = newRow;
    let endColumn = -1;
    this.relax(newRow, 0, 0);
    let settled = 0;
    for (; settled < this.reachedCount; settled++) {
      const column = this.takeNearest(settled);
      const cost = pathCost[column]!;
      const tie = pathTie[column]!;
      if (cost > endCost || (cost === endCost && tie >= endTie)) break;
      const owner = rowOf[column]!;
      if (owner < 0) {
        endColumn = column;
        endCost = cost;
        endTie = tie;
        break;
      }
      const giveUpCost = cost + alone - rowCost[owner]!;
      const giveUpTie = tie - rowTie[owner]!;
      if (giveUpCost < endCost || (giveUpCost === endCost && giveUpTie < endTie)) {
        endCost = giveUpCost;
        endTie = giveUpTie;
        endRow = owner;
      }
      this.relax(owner, cost, tie);
    }
    rowCost[newRow] = endCost;
    rowTie[newRow] = endTie;
    for (let k = 0; k < settled; k++) {
      const column = reached[k]!;
      const moreCost = endCost - pathCost[column]!;
      const moreTie = endTie - pathTie[column]!;
      this.columnCost[column] = this.columnCost[column]! - moreCost;
      this.columnTie[column] = this.columnTie[column]! - moreTie;
      const owner = rowOf[column]!;
      rowCost[owner] = rowCost[owner]! + moreCost;
      rowTie[owner] = rowTie[owner]! + moreTie;
    }
    if (endColumn < 0) {
      endColumn = this.columnOf[endRow]!;
      this.columnOf[endRow] = -1;
      if (endRow === newRow) return;
    }
    this.flip(endColumn, newRow);
  }

  /** Hands columns on along the path that ends at `column`, back to the new row. */
  private flip(endColumn: number, newRow: number): void {
    let column = endColumn;
    for (;;) {
      const row = this.pathRow[column]!;
      const before = this.columnOf[row]!;
      this.columnOf[row] = column;
      this.rowOf[column] = row;
      if (row === newRow) return;
      column = before;
    }
  }

  /** Offers each column of `row` the path that comes through it. */
  private relax(row: number, cost: number, tie: number): void {
    const baseCost = cost - this.rowCost[row]!;
    const baseTie = tie - this.rowTie[row]!;
    const end = this.from[row + 1]!;
    for (let k = this.from[row]!; k < end; k++) {
      const column = this.pairColumn[k]!;
      const viaCost = baseCost + this.pairCost[k]! - this.columnCost[column]!;
      const viaTie = baseTie + this.pairTie[k]! - this.columnTie[column]!;
      if (this.reachedBy[column] !== this.search) {
        this.reachedBy[column] = this.search;
        this.reached[this.reachedCount++] = column;
      } else {
        const known = this.pathCost[column]!;
        if (viaCost > known || (viaCost === known && viaTie >= this.pathTie[column]!)) continue;
      }
      this.pathCost[column] = viaCost;
      this.pathTie[column] = viaTie;
      this.pathRow[column] = row;
    }
  }

  /** Moves the nearest column not yet settled to place `settled` of the list. */
  private takeNearest(settled: number): number {
    const { reached, pathCost, pathTie } = this;
    let best = settled;
    let column = reached[settled]!;
    for (let k = settled + 1; k < this.reachedCount; k++) {
      const other = reached[k]!;
      const difference = pathCost[other]! - pathCost[column]!;
      if (difference < 0 || (difference === 0 && pathTie[other]! < pathTie[column]!)) {
        best = k;
        column = other;
      }
    }
    reached[best] = reached[settled]!;
    reached[settled] = column;
    return column;
  }
}
