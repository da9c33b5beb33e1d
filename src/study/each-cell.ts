/** All cells that count, read back from the journal in order: designs by number, replicates from 1. */
import { type Cell, type FlatCell, unflat } from './cells/cell.js';
import type { DesignStanding, Standing } from './run/standing.js';
import type { CellSource } from './store/journal.js';

export function eachCell(
  { designs }: Standing,
  journal: CellSource,
  told: (standing: DesignStanding, replicate: number, cell: Cell) => void,
): void {
  for (const standing of designs)
    for (let replicate = 1; replicate <= countedOf(standing); replicate++) {
      const entry = journal.read(standing.span(replicate));
      told(standing, replicate, unflat(entry as unknown as FlatCell, standing.planned.shape));
    }
}

/** Replicates of a design that count: those it ended with; of an unfinished one all first ones without a gap. */
export function countedOf(standing: DesignStanding): number {
  return standing.ended === null ? standing.complete : standing.counted;
}
