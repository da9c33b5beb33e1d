/** Visits and door crossings for tests, with everything that does not matter left out. */
import type { Visit } from '../../src/agents/visit.js';
import type { Direction } from '../../src/counter/logic.js';
import { DoorCounter, type DoorCounts } from '../../src/score/door-counts.js';
import { DoorScorer } from '../../src/score/door-scorer.js';
import { COLUMNS, ROWS, type Column, type Row } from '../../src/score/metrics-schema.js';

/** An adult alone, forward, in the zone from 0 to 2 s, crossing half-way; change what the test is about. */
export function visit(change: Partial<Visit> = {}): Visit {
  const enter_us = change.enter_us ?? 0;
  return {
    number: 1,
    door: 0,
    body: 1,
    sort: 'person',
    who: 'adult',
    stature_m: 1.7,
    persons: 1,
    kind: 'through',
    entry: 0,
    direction: 'forward',
    enter_us,
    cross_us: enter_us + 1_000_000,
    leave_us: enter_us + 2_000_000,
    ...change,
  };
}

export type Tally = readonly [time_us: number, direction: Direction];

/** Counts of one door after all visits (in order of entering) and tallies (in order of time). */
export function judge(visits: readonly Visit[], tallies: readonly Tally[], latency_us = 0): DoorCounts {
  const counter = new DoorCounter();
  const scorer = new DoorScorer(latency_us, counter);
  for (const one of visits) scorer.visit(one);
  for (const [time_us, direction] of tallies) scorer.tally(time_us, direction);
  scorer.close();
  return counter.counts();
}

/** The cells of a confusion that are not 0, as `row × column: count`. */
export function cells(counts: DoorCounts): Record<string, number> {
  const found: Record<string, number> = {};
  for (const row of ROWS) {
    for (const column of COLUMNS)
      if (cell(counts, row, column) > 0) found[`${row} × ${column}`] = cell(counts, row, column);
  }
  return found;
}

export function cell(counts: DoorCounts, row: Row, column: Column): number {
  return counts.confusion[ROWS.indexOf(row) * COLUMNS.length + COLUMNS.indexOf(column)]!;
}
