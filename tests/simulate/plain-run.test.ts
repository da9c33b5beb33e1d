/** The short cut of other tests leads to the same counts. */
import { expect, test } from 'vitest';
import type { Metrics } from '../../src/score/metrics-schema.js';
import { simulate } from '../../src/simulate/simulate.js';
import { doorDesign } from './designs.js';
import { plainRun } from './plain-run.js';

test('rows, doors, rooms and house are those of the whole simulation', () => {
  const design = { ...doorDesign({ height_m: 0.3 }), replicates: 3, hours: 2 };
  const rowsOf = (run: typeof plainRun) => {
    const rows: unknown[] = [];
    const keep = (...row: unknown[]) => void rows.push(row);
    const { metrics, figures } = run(design, { passage: keep, edge: keep, tally: keep });
    return { rows, counted: counted(metrics), drift: figures.drift, room_drift: figures.room_drift };
  };
  const whole = rowsOf(simulate);
  expect(whole.rows.length).toBeGreaterThan(1000);
  expect(rowsOf(plainRun)).toEqual(whole);
});

/** Without what is known of rare kinds and causes. */
function counted({ why: _why, doors, ...rest }: Metrics) {
  return { ...rest, doors: doors.map(({ by_kind, ...door }) => ({ ...door, kinds: by_kind.length })) };
}
